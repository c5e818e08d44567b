package loomcase.proof;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import loomcase.InputProblem;
import loomcase.j1939.Code;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.Spot;
import loomcase.journal.Standing;
import loomcase.model.AccessStep;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Watch;
import loomcase.model.Wire;
import loomcase.proof.Proof.Check;
import loomcase.proof.Proof.State;

/** Entry of this stage: lists the checks and sees which of them the case answers. */
public final class ProofMaker {
    /** A stranded conductor may measure a tenth more than the solid figure; see {@code Conductor}. */
    private static final double STRANDED = 1.1;

    /** Contacts and leads after lead zero, ohms: a short run measures below 1 ohm (common practice, no source). */
    private static final double CONTACTS_OHMS = 1;

    /** Least isolation in ohms (common practice, no source). */
    private static final double ISOLATION_OHMS = 1e6;

    /** How many times its debounce a watch is given, and the least seconds at an operating point (judgement). */
    private static final double DEBOUNCES = 3;

    private static final double LEAST_SECONDS = 60;
    private static final String PRACTICE = "common practice, no source";
    private static final String WIRE = "wire length and size by IEC 60028 and ASTM B258, plus 1 ohm for contacts"
            + " (common practice, no source)";

    private final Circuit circuit;
    private final Layout layout;
    private final List<Standing> standing;
    private final int work;
    private final List<Check> checks = new ArrayList<>();

    private ProofMaker(Circuit circuit, Layout layout, List<Standing> standing, int work) {
        this.circuit = circuit;
        this.layout = layout;
        this.standing = standing;
        this.work = work;
    }

    /**
     * The proof of a case as it stands.
     *
     * @throws InputProblem when the case records no work yet: there is nothing to prove
     */
    public static Proof of(Circuit circuit, Layout layout, Journal journal) {
        List<Standing> standing = journal.standing();
        int last = -1;
        List<Integer> lines = new ArrayList<>();
        for (int i = 0; i < standing.size(); i++)
            if (standing.get(i).fact() instanceof Fact.Work w && w.spot().isPresent()) {
                last = i;
                lines.add(standing.get(i).n());
            }
        if (last < 0)
            throw new InputProblem(
                    "the case records no work yet; add it with: record CASE work repaired --place PLACE");
        ProofMaker maker = new ProofMaker(circuit, layout, standing, last);
        maker.check();
        return Proof.of(lines, maker.checks);
    }

    private void check() {
        Set<Spot> spots = new LinkedHashSet<>();
        for (int i = 0; i <= work; i++)
            if (standing.get(i).fact() instanceof Fact.Work w) w.spot().ifPresent(spots::add);
        Map<String, Stretch> stretches = new LinkedHashMap<>();
        for (Spot s : spots)
            for (Wire w : touched(s))
                Stretch.through(circuit, layout, w).ifPresent(x -> stretches.putIfAbsent(x.from() + x.to(), x));
        stretches.values().forEach(this::continuity);
        stretches.values().stream().filter(s -> !s.grounded(circuit)).forEach(this::isolation);
        spots.forEach(this::wiggle);
        codes();
        access();
    }

    /** Wires that the work may have changed: all at a splice, a plug or on a branch, those of a cavity, the wire itself. */
    private List<Wire> touched(Spot spot) {
        String id = spot.place().id();
        PlaceId.Kind kind = spot.place().kind();
        if (kind == PlaceId.Kind.BRANCH) return layout.in(id);
        return circuit.wires().values().stream()
                .filter(w -> switch (kind) {
                    case WIRE -> w.id().equals(id);
                    case CAVITY, SPLICE, GROUND -> w.from().equals(id) || w.to().equals(id);
                    case CONNECTOR, FUSE ->
                        Names.connectorOf(w.from()).equals(id)
                                || Names.connectorOf(w.to()).equals(id);
                    default -> false;
                })
                .toList();
    }

    private void continuity(Stretch s) {
        double limit = STRANDED * s.ohms() + CONTACTS_OHMS;
        reading(
                Fact.Test.OHMS,
                s.from(),
                s.to(),
                String.format(
                        Locale.ROOT,
                        "ohms from %s to %s, both ends unplugged, key off: at most %.2f ohm after lead zero (copper %.3f ohm)",
                        s.from(),
                        s.to(),
                        limit,
                        s.ohms()),
                WIRE,
                value -> value.isPresent() && value.getAsDouble() <= limit);
    }

    private void isolation(Stretch s) {
        reading(
                Fact.Test.ISOLATION,
                s.from(),
                Names.CHASSIS,
                "isolation of " + s.from() + " from chassis, all ends unplugged, key off: above 1 Mohm",
                PRACTICE,
                value -> value.isEmpty() || value.getAsDouble() > ISOLATION_OHMS);
    }

    /** A limit on a reading; an over-range display is empty. */
    private interface Limit {
        boolean holds(OptionalDouble value);
    }

    private void reading(Fact.Test test, String a, String b, String words, String source, Limit limit) {
        State state = State.MISSING;
        List<Integer> lines = new ArrayList<>();
        String found = "";
        for (Standing s : after())
            if (s.fact() instanceof Fact.Reading r
                    && r.test() == test
                    && (r.a().equals(a) && r.b().equals(b) || r.a().equals(b) && r.b().equals(a))) {
                // The last reading counts: an earlier one may be what was put right.
                state = limit.holds(r.shown().value()) ? State.PASSED : State.CONTRADICTED;
                lines = List.of(s.n());
                found = r.shown().toString();
            }
        checks.add(new Check(words, source, "", state, lines, found));
    }

    private void wiggle(Spot spot) {
        State state = State.MISSING;
        List<Integer> lines = List.of();
        String found = "";
        for (Standing s : after())
            if (s.fact() instanceof Fact.Moved m
                    && m.action() == Fact.Action.WIGGLE
                    && m.spot().place().equals(spot.place())) {
                state = m.response() ? State.CONTRADICTED : State.PASSED;
                lines = List.of(s.n());
                found = m.response() ? "responded: " + m.what() : "steady";
            }
        checks.add(new Check(
                "wiggle " + spot.place() + " for 2 minutes with value and codes in view: nothing changes",
                PRACTICE,
                "moving and hot parts: keep hands, hair and leads clear of fans and belts",
                state,
                lines,
                found));
    }

    private void codes() {
        Set<Code> before = new TreeSet<>();
        for (Standing s : standing.subList(0, work))
            if (s.fact() instanceof Fact.Codes c) c.codes().forEach(r -> before.add(r.code()));
        int cleared = -1;
        for (int i = work + 1; i < standing.size(); i++)
            if (standing.get(i).fact() instanceof Fact.Work w && w.deed() == Fact.Deed.CLEARED_CODES) cleared = i;
        checks.add(new Check(
                "clear all codes after the work",
                PRACTICE,
                "",
                cleared < 0 ? State.MISSING : State.PASSED,
                cleared < 0 ? List.of() : List.of(standing.get(cleared).n()),
                cleared < 0 ? "" : "cleared"));
        List<Standing> read = new ArrayList<>();
        if (cleared >= 0)
            for (Standing s : standing.subList(cleared + 1, standing.size()))
                if (s.fact() instanceof Fact.Codes) read.add(s);
        points(before).forEach((point, here) -> ran(point, here, read));
        noCode(before, read);
        lamps(read);
    }

    /** Operating points at which watches of these codes run, with the watches. */
    private Map<String, List<Watch>> points(Set<Code> before) {
        Map<String, List<Watch>> out = new LinkedHashMap<>();
        for (String op : circuit.operatingPoints().keySet()) {
            List<Watch> here = circuit.watches().stream()
                    .filter(w -> before.contains(new Code(w.spn(), w.fmi())))
                    .filter(w -> w.operatingPoints().contains(op))
                    .toList();
            boolean visited = standing.subList(0, work).stream()
                    .anyMatch(s -> s.fact() instanceof Fact.Codes c
                            && c.operatingPoints().contains(op));
            if (!here.isEmpty() && visited) out.put(op, here);
        }
        return out;
    }

    private void ran(String point, List<Watch> watches, List<Standing> read) {
        double seconds = LEAST_SECONDS;
        Set<Code> codes = new TreeSet<>();
        for (Watch w : watches) {
            seconds = Math.max(seconds, DEBOUNCES * w.debounceSeconds());
            codes.add(new Code(w.spn(), w.fmi()));
        }
        Optional<Standing> done = read.stream()
                .filter(s -> ((Fact.Codes) s.fact()).operatingPoints().contains(point))
                .reduce((a, b) -> b);
        boolean running = circuit.operatingPoints().get(point).engineRunning();
        checks.add(new Check(
                "run " + circuit.operatingPoints().get(point).label() + " (" + point + ") for at least "
                        + Math.round(seconds) + " s, so that " + list(codes) + " could set again; then read codes",
                "3 times the longest debounce, 60 s at least (judgement)",
                running ? "engine runs: moving and hot parts, exhaust gas; follow the maker's instructions" : "",
                done.isPresent() ? State.PASSED : State.MISSING,
                done.map(s -> List.of(s.n())).orElse(List.of()),
                done.isPresent() ? "codes read at " + point : ""));
    }

    private static String list(Set<Code> codes) {
        List<String> words = codes.stream().map(Code::toString).toList();
        return words.size() <= 6
                ? String.join(", ", words)
                : String.join(", ", words.subList(0, 6)) + " and " + (words.size() - 6) + " more";
    }

    private void noCode(Set<Code> before, List<Standing> read) {
        List<String> back = new ArrayList<>();
        List<String> fresh = new ArrayList<>();
        List<Integer> lines = new ArrayList<>();
        for (Standing s : read)
            for (Fact.ReadCode c : ((Fact.Codes) s.fact()).codes()) {
                (before.contains(c.code()) ? back : fresh).add(c.code().toString());
                if (!lines.contains(s.n())) lines.add(s.n());
            }
        String found = (back.isEmpty() ? "" : "back: " + String.join(", ", back))
                + (back.isEmpty() || fresh.isEmpty() ? "" : "; ")
                + (fresh.isEmpty() ? "" : "new, look for a slip in the work: " + String.join(", ", fresh));
        boolean none = back.isEmpty() && fresh.isEmpty();
        checks.add(new Check(
                "no code comes back and no new one appears",
                PRACTICE,
                "",
                read.isEmpty() ? State.MISSING : none ? State.PASSED : State.CONTRADICTED,
                read.isEmpty() || !none
                        ? lines
                        : List.of(read.get(read.size() - 1).n()),
                read.isEmpty() ? "" : none ? "no code" : found));
    }

    private void lamps(List<Standing> read) {
        State state = State.MISSING;
        List<Integer> lines = List.of();
        String found = "";
        for (Standing s : read) {
            Optional<Lamps> lamps = ((Fact.Codes) s.fact()).lamps();
            if (lamps.isEmpty()) continue;
            boolean lit = List.of(
                            lamps.get().protect(),
                            lamps.get().amberWarning(),
                            lamps.get().redStop(),
                            lamps.get().malfunction())
                    .stream()
                    .anyMatch(l -> l.state() == Lamp.State.ON);
            state = lit ? State.CONTRADICTED : State.PASSED;
            lines = List.of(s.n());
            found = lit ? "a lamp is lit" : "all lamps out";
        }
        checks.add(new Check(
                "lamps out after start: the closing test, not the only one", PRACTICE, "", state, lines, found));
    }

    private void access() {
        Map<String, Integer> opened = new LinkedHashMap<>();
        Map<String, Integer> closed = new LinkedHashMap<>();
        for (Standing s : standing) {
            if (s.fact() instanceof Fact.OpenedAccess o) {
                opened.put(o.step(), s.n());
                closed.remove(o.step());
            }
            if (s.fact() instanceof Fact.ClosedAccess c) closed.put(c.step(), s.n());
        }
        List<String> steps = new ArrayList<>(opened.keySet());
        java.util.Collections.reverse(steps);
        for (String id : steps) {
            AccessStep step = circuit.access().get(id);
            String after = step == null || step.after().isEmpty() ? "" : ": " + String.join("; ", step.after());
            Integer line = closed.get(id);
            checks.add(new Check(
                    "closed again: " + (step == null ? id : step.label()) + after,
                    "access steps of the circuit file",
                    step == null || step.caution().isEmpty() ? "" : step.caution(),
                    line == null ? State.MISSING : State.PASSED,
                    line == null ? List.of() : List.of(line),
                    line == null ? "" : "closed"));
        }
    }

    private List<Standing> after() {
        return standing.subList(work + 1, standing.size());
    }
}
