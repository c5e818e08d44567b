package loomcase.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.j1939.Code;
import loomcase.j1939.CodeList;
import loomcase.j1939.CodeReading;
import loomcase.j1939.log.CodeSeen;
import loomcase.j1939.log.CodesRead;
import loomcase.j1939.log.Conditions;
import loomcase.j1939.log.SourceCodes;
import loomcase.model.Circuit;
import loomcase.model.Watch;
import loomcase.rank.Evidence;

/**
 * Entry of this stage: turns typed codes or a read log into evidence about one circuit, and says what it assumed.
 *
 * @param evidence what is known
 * @param notes assumptions and what was left out, one sentence each
 */
public record Intake(Evidence evidence, List<String> notes) {
    /** Engine speed in rpm from which the engine counts as running; cranking is below. */
    private static final double RUNNING_RPM = 400;

    public Intake {
        notes = List.copyOf(notes);
    }

    /**
     * Evidence from typed codes.
     *
     * @param active codes there now
     * @param stored codes there before
     * @param at operating points visited, empty to assume
     * @throws InputProblem when an operating point is unknown or a code is given twice
     */
    public static Intake typed(Circuit circuit, CodeList active, CodeList stored, List<String> at) {
        Map<Code, Evidence.Seen> seen = new LinkedHashMap<>();
        active.entries()
                .forEach(e -> seen.put(e.code(), new Evidence.Seen(e.code(), Evidence.State.ACTIVE, e.count())));
        for (CodeList.Entry e : stored.entries())
            if (seen.putIfAbsent(e.code(), new Evidence.Seen(e.code(), Evidence.State.STORED, e.count())) != null)
                throw new InputProblem("code " + e.code() + " is given as active and as stored; give it once");
        List<String> notes = new ArrayList<>();
        return of(circuit, List.copyOf(seen.values()), points(circuit, at, Optional.empty(), notes), notes);
    }

    /**
     * Evidence from a log: the codes of the circuit's control unit.
     *
     * @param read what the log says
     * @param at operating points visited, empty to guess from engine speed
     * @throws InputProblem when an operating point is unknown or the control unit sent no trouble message
     */
    public static Intake fromLog(Circuit circuit, CodesRead read, List<String> at) {
        List<String> notes = new ArrayList<>();
        int address = circuit.controlUnit().address();
        List<SourceCodes> own =
                read.sources().stream().filter(s -> s.address() == address).toList();
        if (own.isEmpty())
            throw new InputProblem("the log has no trouble message from address " + address + ", the "
                    + circuit.controlUnit().label() + "; addresses in it: "
                    + read.sources().stream()
                            .map(SourceCodes::address)
                            .distinct()
                            .toList());
        Map<Code, Evidence.Seen> seen = new LinkedHashMap<>();
        for (SourceCodes source : own) for (CodeSeen c : source.codes()) add(circuit, c, seen, notes);
        for (SourceCodes other : read.sources())
            if (other.address() != address && !other.codes().isEmpty())
                notes.add("address " + other.address() + " sent codes of its own, not weighed here: "
                        + other.codes().stream()
                                .map(c -> c.reading().toString())
                                .toList());
        read.warnings().forEach(w -> notes.add("log: " + w));
        Optional<Boolean> running = read.conditions().stream()
                .map(Conditions::engineRpm)
                .flatMap(Optional::stream)
                .map(r -> r.most() >= RUNNING_RPM)
                .reduce(Boolean::logicalOr);
        return of(circuit, List.copyOf(seen.values()), points(circuit, at, running, notes), notes);
    }

    private static void add(Circuit circuit, CodeSeen c, Map<Code, Evidence.Seen> seen, List<String> notes) {
        Code code = choose(circuit, c.reading(), notes);
        Evidence.State state = c.state() == CodeSeen.State.ACTIVE ? Evidence.State.ACTIVE : Evidence.State.STORED;
        Evidence.Seen now = new Evidence.Seen(code, state, c.count());
        Evidence.Seen before = seen.get(code);
        if (before == null || before.state() == Evidence.State.STORED) seen.put(code, now);
    }

    /** Of several candidates, the one whose SPN the circuit watches; otherwise the first, with a note. */
    private static Code choose(Circuit circuit, CodeReading reading, List<String> notes) {
        if (reading.code().isPresent()) return reading.code().get();
        Set<Integer> spns = new LinkedHashSet<>();
        circuit.watches().forEach(w -> spns.add(w.spn()));
        List<Code> fitting =
                reading.codes().stream().filter(c -> spns.contains(c.spn())).toList();
        Code chosen = fitting.isEmpty() ? reading.codes().get(0) : fitting.get(0);
        notes.add("a code in an older layout may be " + reading + "; read as " + chosen
                + (fitting.size() == 1 ? ", the only one this circuit watches" : "; name the layout to settle it"));
        return chosen;
    }

    private static Intake of(Circuit circuit, List<Evidence.Seen> seen, List<String> points, List<String> notes) {
        Set<Integer> known = new LinkedHashSet<>();
        for (Watch w : circuit.watches()) known.add(w.spn());
        for (Evidence.Seen s : seen)
            if (!known.contains(s.code().spn()))
                notes.add("code " + s.code() + " belongs to no circuit of this model and is left unexplained");
        return new Intake(new Evidence(seen, points), notes);
    }

    private static List<String> points(
            Circuit circuit, List<String> at, Optional<Boolean> running, List<String> notes) {
        for (String id : at)
            if (!circuit.operatingPoints().containsKey(id))
                throw new InputProblem("operating point '" + id + "' is not one of "
                        + circuit.operatingPoints().keySet());
        if (!at.isEmpty()) return at.stream().distinct().toList();
        List<String> out = new ArrayList<>();
        circuit.firstPoint(false).ifPresent(o -> out.add(o.id()));
        if (running.orElse(true)) circuit.firstPoint(true).ifPresent(o -> out.add(o.id()));
        if (out.isEmpty()) out.add(circuit.restingPoint().id());
        String why = running.map(r -> r ? "the log shows the engine running" : "the log shows the engine not running")
                .orElse("nothing says whether the engine ran");
        notes.add("taken as looked at: " + String.join(", ", out) + " (" + why
                + "); name operating points to say otherwise");
        return List.copyOf(out);
    }
}
