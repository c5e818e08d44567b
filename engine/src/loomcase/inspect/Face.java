package loomcase.inspect;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.casework.Answer;
import loomcase.casework.OpenCase;
import loomcase.j1939.Code;
import loomcase.journal.Entry;
import loomcase.journal.Standing;
import loomcase.model.AccessStep;
import loomcase.model.Circuit;
import loomcase.model.PlaceId;
import loomcase.model.Watch;
import loomcase.model.Wire;
import loomcase.plan.NextTest;
import loomcase.rank.Ranking;

/**
 * The face of one place: what a person who points at it wants to know.
 *
 * @param place the place
 * @param label what a technician would call it
 * @param facts a few sentences from the circuit file, such as surroundings and terminal family
 * @param rows its points, such as the cavities of a plug, each with its wires and volts
 * @param suspects faults weighed there, most probable first
 * @param codes codes of circuits that pass here
 * @param tests proposed tests that take place here, best first
 * @param lines what the case says of this place
 * @param access steps needed to reach it
 * @param cautions what can hurt here
 */
public record Face(
        PlaceId place,
        String label,
        List<String> facts,
        List<Row> rows,
        List<Fault> suspects,
        List<CodeHere> codes,
        List<NextTest> tests,
        List<Entry> lines,
        List<AccessStep> access,
        List<String> cautions) {

    /**
     * One point with what leads to it.
     *
     * @param point its name, as {@link loomcase.model.Names} says
     * @param label signal name at the control unit or terminal role at a device, empty for none
     * @param wires wires that end there; none for an empty cavity
     * @param volts volts against the chassis
     */
    public record Row(String point, String label, List<Wire> wires, Volts.At volts) {}

    /**
     * A fault weighed at this place; one that several suspects hold, as half of two faults at once, is there once.
     *
     * @param rank rank of its first suspect
     * @param words the fault
     * @param place where exactly
     * @param probability share of the whole posterior
     */
    public record Fault(int rank, String words, PlaceId place, double probability) {}

    /**
     * A code whose circuit passes here.
     *
     * @param state active or stored, or "not set"
     */
    public record CodeHere(Code code, String label, String state) {}

    public Face {
        facts = List.copyOf(facts);
        rows = List.copyOf(rows);
        suspects = List.copyOf(suspects);
        codes = List.copyOf(codes);
        tests = List.copyOf(tests);
        lines = List.copyOf(lines);
        access = List.copyOf(access);
        cautions = List.copyOf(cautions);
    }

    /**
     * The face of a place in a case.
     *
     * @param place a place of the circuit
     * @param volts predicted and measured volts at the moment wanted
     */
    public static Face of(OpenCase open, Answer answer, PlaceId place, Volts volts) {
        Around around = new Around(open.circuit(), open.bench().layout(), place);
        return new Face(
                place,
                around.label(),
                around.facts(),
                rows(around, volts),
                suspects(answer, around),
                codes(open.circuit(), answer, around),
                answer.next().stream()
                        .filter(t -> Answer.points(t.test()).stream().anyMatch(around::covers))
                        .toList(),
                lines(open, around),
                around.access(),
                answer.cautions(place));
    }

    private static List<Row> rows(Around around, Volts volts) {
        Map<String, Volts.At> at = volts.of(around.points());
        List<Row> out = new ArrayList<>();
        at.forEach((point, v) -> out.add(new Row(point, around.roleOf(point), around.wiresAt(point), v)));
        return out;
    }

    private static List<Fault> suspects(Answer answer, Around around) {
        Map<String, Fault> by = new LinkedHashMap<>();
        for (Ranking.Suspect s : answer.ranking().suspects())
            for (Ranking.Member m : s.members())
                if (m.place().kind() != PlaceId.Kind.ENGINE && around.covers(m.place()))
                    by.merge(
                            m.words() + m.place(),
                            new Fault(s.rank(), m.words(), m.place(), m.probability()),
                            (a, b) -> new Fault(
                                    Math.min(a.rank(), b.rank()),
                                    a.words(),
                                    a.place(),
                                    a.probability() + b.probability()));
        List<Fault> out = new ArrayList<>(by.values());
        out.sort(java.util.Comparator.comparingDouble((Fault f) -> -f.probability())
                .thenComparing(Fault::rank)
                .thenComparing(Fault::words));
        return out;
    }

    /** Watches of pins and devices that a wire of this place leads to, codes seen first. */
    private static List<CodeHere> codes(Circuit circuit, Answer answer, Around around) {
        Map<Code, String> state = new LinkedHashMap<>();
        answer.ranking().codes().forEach(c -> state.put(c.code(), c.state().word()));
        Set<String> pins = new LinkedHashSet<>(around.ends());
        List<CodeHere> seen = new ArrayList<>();
        List<CodeHere> silent = new ArrayList<>();
        for (Watch w : circuit.watches()) {
            if (w.measure().pins().stream().noneMatch(pins::contains) && !around.isDevice(w.device())) continue;
            Code code = new Code(w.spn(), w.fmi());
            (state.containsKey(code) ? seen : silent)
                    .add(new CodeHere(code, w.label(), state.getOrDefault(code, "not set")));
        }
        seen.addAll(silent);
        return seen.stream().distinct().toList();
    }

    private static List<Entry> lines(OpenCase open, Around around) {
        Set<Integer> numbers = new LinkedHashSet<>();
        for (Standing s : open.journal().standing()) if (around.isIn(s.fact())) numbers.add(s.n());
        return open.journal().entries().stream()
                .filter(e -> numbers.contains(e.n()))
                .toList();
    }
}
