package loomcase.demo;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.solve.NetworkSolver;

/**
 * A fault put into the reference harness, for demo cases and for tests of the whole way from log to suspects.
 *
 * @param name file name of its demo log
 * @param words what was planted, for people
 * @param edits what it does to the circuit
 * @param place where it is
 * @param operatingPoints where codes were looked for
 */
public record Planted(String name, String words, List<Edit> edits, PlaceId place, List<String> operatingPoints) {
    private static final List<String> RUNNING = List.of("key-on", "idle-warm");

    /** The demo cases of the reference harness. */
    public static List<Planted> all(Circuit circuit) {
        List<Hypothesis> known = new FaultGenerator(circuit, new Layout(circuit), Priors.builtIn()).generate();
        List<Planted> out = new ArrayList<>();
        out.add(of(known, "five-volt-splice-open", "splice.open S5A", RUNNING));
        out.add(of(known, "return-splice-open", "splice.open SRA", RUNNING));
        out.add(of(known, "coolant-signal-open", "wire.open W208", RUNNING));
        out.add(of(known, "network-stub-open", "wire.open W102", RUNNING));
        out.add(of(known, "injector-bank-feed-open", "wire.open W237", RUNNING));
        out.add(new Planted(
                "chafe-three-to-ground",
                "branch BE10 worn through at R7: wires W220, W221 and W212 to ground",
                List.of(toGround(circuit, "W220"), toGround(circuit, "W221"), toGround(circuit, "W212")),
                new PlaceId(PlaceId.Kind.BRANCH, "BE10"),
                RUNNING));
        out.add(of(known, "position-supply-grounded", "wire.short-ground W135", RUNNING));
        List<String> loose = List.of("J2/4", "J2/6", "J2/11", "J2/8", "J2/35", "J2/20");
        out.add(new Planted(
                "plug-half-latched",
                "control unit plug 2 not fully latched: contacts " + loose + " open",
                loose.stream()
                        .<Edit>map(c -> new Edit.Series(Names.contact(c), Edit.OPEN_OHMS))
                        .toList(),
                new PlaceId(PlaceId.Kind.CONNECTOR, "J2"),
                RUNNING));
        out.add(of(known, "cavities-bridged", "contact.bridge J2/27 28 200 ohm", RUNNING));
        out.add(of(known, "coolant-truly-hot", "condition.engine ECT overheat", RUNNING));
        return out;
    }

    private static Edit toGround(Circuit circuit, String wire) {
        return new Edit.Bridge(circuit.wires().get(wire).from(), Names.CHASSIS, Edit.SHORT_OHMS);
    }

    private static Planted of(List<Hypothesis> known, String name, String id, List<String> points) {
        Hypothesis h = known.stream()
                .filter(each -> each.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no hypothesis " + id));
        return new Planted(name, h.words(), ((Hypothesis.Fixed) h.cause()).edits(), h.place(), points);
    }

    /** Codes that this fault shows: those predicted with probability above one half. */
    public List<Code> codes(Circuit circuit, PolicyOutcome policy) {
        CodeTable table = new CodeTable(circuit.watches(), policy, List.of(), 0);
        NetworkSolver solver = new NetworkSolver(circuit, new Layout(circuit));
        Predictor predictor = new Predictor(circuit, solver, table, operatingPoints);
        Prediction p = predictor.predict(edits);
        List<Code> out = new ArrayList<>();
        for (int k = 0; k < p.codes().length; k++)
            if (p.probability()[k] > 0.5) out.add(table.codes().get(p.codes()[k]));
        return out;
    }

    /** Counts to go with the codes of a lasting fault: small and not all alike. */
    public static Map<Code, Integer> counts(List<Code> codes) {
        Map<Code, Integer> out = new java.util.LinkedHashMap<>();
        for (Code c : codes) out.put(c, 1 + (c.spn() + c.fmi()) % 3);
        return out;
    }
}
