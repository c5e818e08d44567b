package loomcase.proof;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import loomcase.j1939.Code;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.journal.Fact;
import loomcase.journal.Standing;
import loomcase.model.Circuit;
import loomcase.model.OperatingPoint;
import loomcase.model.Watch;
import loomcase.proof.Proof.Check;
import loomcase.proof.Proof.Kind;
import loomcase.proof.Proof.State;

/**
 * Codes cleared, the engine run so that every watch concerned has looked, codes read again.
 *
 * <p>Watches concerned: those of the codes seen before the work, at every operating point where they were seen; and those on
 * circuits that the work touched, each at one operating point at least, the fewest that cover all. At an operating point the
 * engine is run for {@value #DEBOUNCES} times the longest debounce there and {@value #LEAST_SECONDS} s at least (judgement);
 * the time from clearing to reading, by the stamps, must leave room for that.
 */
final class RunChecks {
    private static final double DEBOUNCES = 3;
    private static final double LEAST_SECONDS = 60;

    /** Drives without a code after which a repair is believed (judgement); more when the fault came and went. */
    private static final int CYCLES = 2;

    private static final int CYCLES_COMING_AND_GOING = 3;

    /**
     * Count from which a code is likelier to have come and gone: geometric counts of mean 2 for a lasting fault and 12 for
     * one that comes and goes (rules/priors.csv) are equally probable between 3 and 4.
     */
    private static final int COMES_AND_GOES = 4;

    private static final String PRACTICE = "common practice, no source";
    private static final String RUNNING =
            "engine runs: moving and hot parts, exhaust gas; follow the engine maker's instructions";

    private final Circuit circuit;
    private final CaseLines lines;
    private final Touched touched;
    private final List<Standing> read;
    private final Map<Code, OptionalInt> before = new LinkedHashMap<>();

    RunChecks(Circuit circuit, CaseLines lines, Touched touched) {
        this.circuit = circuit;
        this.lines = lines;
        this.touched = touched;
        this.read = lines.readSinceCleared();
        for (Standing s : lines.before())
            if (s.fact() instanceof Fact.Codes c)
                c.codes().forEach(r -> before.merge(r.code(), r.count(), RunChecks::most));
    }

    private static OptionalInt most(OptionalInt a, OptionalInt b) {
        if (a.isEmpty() || b.isEmpty()) return a.isEmpty() ? b : a;
        return OptionalInt.of(Math.max(a.getAsInt(), b.getAsInt()));
    }

    List<Check> list(List<String> notes) {
        List<Check> out = new ArrayList<>();
        Optional<Standing> cleared = lines.cleared();
        out.add(check(
                Kind.CLEAR,
                "clear all codes after the work",
                PRACTICE,
                cleared.stream().toList(),
                "cleared"));
        Map<String, Double> seconds = seconds();
        seconds.forEach((point, s) -> out.add(run(point, seconds)));
        out.add(cycles());
        out.add(codes(notes));
        out.add(lamps());
        return out;
    }

    private static Check check(Kind kind, String words, String source, List<Standing> by, String found) {
        return new Check(
                kind,
                words,
                Optional.empty(),
                source,
                "",
                by.isEmpty() ? State.MISSING : State.PASSED,
                by.stream().map(Standing::n).toList(),
                by.isEmpty() ? "" : found);
    }

    /** Operating points to run, in file order, with the seconds that each needs. */
    private Map<String, Double> seconds() {
        Set<String> chosen = new LinkedHashSet<>();
        for (Standing s : lines.before())
            if (s.fact() instanceof Fact.Codes c)
                for (String point : c.operatingPoints())
                    if (c.codes().stream().anyMatch(r -> watched(r.code(), point))) chosen.add(point);
        List<Watch> open = new ArrayList<>(touched.watches());
        open.removeIf(w -> w.operatingPoints().stream().anyMatch(chosen::contains));
        while (!open.isEmpty()) {
            String best = circuit.operatingPoints().keySet().stream()
                    .filter(p -> !chosen.contains(p))
                    .max(Comparator.comparingLong(p -> open.stream()
                            .filter(w -> w.operatingPoints().contains(p))
                            .count()))
                    .orElseThrow();
            chosen.add(best);
            open.removeIf(w -> w.operatingPoints().contains(best));
        }
        Map<String, Double> out = new LinkedHashMap<>();
        for (String p : circuit.operatingPoints().keySet())
            if (chosen.contains(p))
                out.put(
                        p,
                        watches(p)
                                .mapToDouble(w -> DEBOUNCES * w.debounceSeconds())
                                .reduce(LEAST_SECONDS, Math::max));
        return out;
    }

    private boolean watched(Code code, String point) {
        return circuit.watches().stream()
                .anyMatch(w -> new Code(w.spn(), w.fmi()).equals(code)
                        && w.operatingPoints().contains(point));
    }

    /** Watches concerned that look at an operating point. */
    private Stream<Watch> watches(String point) {
        List<Watch> near = touched.watches();
        return circuit.watches().stream()
                .filter(w -> w.operatingPoints().contains(point))
                .filter(w -> before.containsKey(new Code(w.spn(), w.fmi())) || near.contains(w));
    }

    private Check run(String point, Map<String, Double> seconds) {
        OperatingPoint op = circuit.operatingPoints().get(point);
        Set<Code> codes = new TreeSet<>();
        watches(point).forEach(w -> codes.add(new Code(w.spn(), w.fmi())));
        Set<Code> old = new TreeSet<>(codes);
        old.retainAll(before.keySet());
        codes.removeAll(old);
        State state = State.MISSING;
        List<Integer> where = List.of();
        String found = "";
        for (Standing s : read) {
            Fact.Codes c = (Fact.Codes) s.fact();
            if (!c.operatingPoints().contains(point) || state == State.PASSED) continue;
            double needed = c.operatingPoints().stream()
                    .mapToDouble(p -> seconds.getOrDefault(p, 0.0))
                    .sum();
            long had = CaseLines.seconds(lines.cleared().orElseThrow(), s);
            state = had >= needed ? State.PASSED : State.MISSING;
            where = List.of(s.n());
            found = "codes read " + had + " s after clearing"
                    + (had >= needed ? "" : ", does not count: " + Math.round(needed) + " s are needed");
        }
        return new Check(
                Kind.RUN,
                "run " + op.label() + " (" + point + ") for " + Math.round(seconds.get(point))
                        + " s or more, then read codes: the watches of " + list(old, codes.size())
                        + " must have looked",
                Optional.empty(),
                "3 times the longest debounce of these watches, 60 s at least (judgement)",
                op.engineRunning() ? RUNNING : "",
                state,
                where,
                found);
    }

    private static String list(Set<Code> old, int others) {
        String near = others + (others == 1 ? " code" : " codes") + " on circuits that the work touched";
        if (old.isEmpty()) return near;
        String words = String.join(", ", old.stream().map(Code::toString).toList());
        return others == 0 ? words : words + " and of " + near;
    }

    private Check cycles() {
        List<Map.Entry<Code, OptionalInt>> often = before.entrySet().stream()
                .filter(e -> e.getValue().orElse(1) >= COMES_AND_GOES)
                .toList();
        int needed = often.isEmpty() ? CYCLES : CYCLES_COMING_AND_GOING;
        String why = often.isEmpty()
                ? PRACTICE + "; " + CYCLES + ": judgement"
                : "judgement: " + often.get(0).getKey() + " had set "
                        + often.get(0).getValue().orElseThrow()
                        + " times, so it came and went; one that returns in every second drive stays away from "
                        + needed + " with probability 1/8";
        Check c = check(
                Kind.CYCLE,
                "key off, wait for power-down, start and run again, read codes: " + needed
                        + " times in all since clearing",
                why,
                read,
                read.size() + " of " + needed);
        return new Check(
                c.kind(),
                c.words(),
                c.limit(),
                c.source(),
                c.caution(),
                read.size() >= needed ? State.PASSED : State.MISSING,
                c.lines(),
                c.found());
    }

    /** Any code since clearing, or one active after the work although nothing was cleared. */
    private Check codes(List<String> notes) {
        Set<Integer> known = new LinkedHashSet<>();
        circuit.watches().forEach(w -> known.add(w.spn()));
        Set<String> back = new LinkedHashSet<>();
        Set<String> fresh = new LinkedHashSet<>();
        List<Integer> where = new ArrayList<>();
        for (Standing s : lines.after()) {
            if (!(s.fact() instanceof Fact.Codes c)) continue;
            for (Fact.ReadCode r : c.codes()) {
                if (!read.contains(s) && r.state() == Fact.State.STORED) continue;
                if (!known.contains(r.code().spn())) {
                    notes.add("code " + r.code() + " in line " + s.n() + " belongs to no circuit of this model");
                    continue;
                }
                (before.containsKey(r.code()) ? back : fresh).add(r.code().toString());
                if (!where.contains(s.n())) where.add(s.n());
            }
        }
        String found = (back.isEmpty() ? "" : "back: " + String.join(", ", back))
                + (back.isEmpty() || fresh.isEmpty() ? "" : "; ")
                + (fresh.isEmpty() ? "" : "new: " + String.join(", ", fresh));
        boolean none = where.isEmpty();
        return new Check(
                Kind.CODES,
                "no code comes back and no new one appears",
                Optional.empty(),
                PRACTICE,
                "",
                !none ? State.CONTRADICTED : read.isEmpty() ? State.MISSING : State.PASSED,
                none ? read.stream().map(Standing::n).toList() : where,
                none ? (read.isEmpty() ? "" : "no code") : found);
    }

    private Check lamps() {
        State state = State.MISSING;
        List<Integer> where = List.of();
        String found = "";
        for (Standing s : read) {
            Optional<Lamps> sent = ((Fact.Codes) s.fact()).lamps();
            if (sent.isEmpty()) continue;
            Lamps l = sent.get();
            List<Lamp> all = List.of(l.protect(), l.amberWarning(), l.redStop(), l.malfunction());
            boolean lit = all.stream().anyMatch(Lamp::lit);
            boolean out = all.stream().anyMatch(x -> x.state() == Lamp.State.OFF);
            state = lit ? State.CONTRADICTED : out ? State.PASSED : State.MISSING;
            where = List.of(s.n());
            found = lit ? "a lamp is lit" : out ? "lamps out" : "no lamp state sent";
        }
        return new Check(
                Kind.LAMPS,
                "lamps out after start: the closing test, not the only one",
                Optional.empty(),
                PRACTICE,
                "",
                state,
                where,
                found);
    }
}
