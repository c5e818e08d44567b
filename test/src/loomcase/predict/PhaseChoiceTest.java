package loomcase.predict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.model.Watch;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.solve.NetworkSolver;
import org.junit.jupiter.api.Test;

/** Some codes from fewer phases are the codes from all of them: our own slow way is the standard here. */
class PhaseChoiceTest {
    /** Wires of battery, fuses, relay and unit supply, which stand first. */
    private static final int SUPPLY = 20;

    private final Circuit circuit = CircuitReader.read(Path.of("circuits", "larch-13.json"));
    private final Layout layout = new Layout(circuit);
    private final CodeTable table = new CodeTable(
            circuit.watches(),
            Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit)),
            List.of(),
            0.02);

    @Test
    void aSensorsCodesNeedRestAndTheDriversOnButNoTalkOnTheNetwork() {
        OperatingPoint keyOn = circuit.operatingPoints().get("key-on");
        Set<String> phases = PhaseChoice.of(circuit, keyOn, table.behind(List.of(new Code(100, 3), new Code(100, 4))));
        assertEquals(Set.of("rest", "drive"), phases);
        BitSet one = new BitSet();
        one.set(table.behind(List.of(new Code(3509, 4))).nextSetBit(0));
        assertEquals(Set.of("rest", "drive"), PhaseChoice.of(circuit, keyOn, one));
        BitSet all = new BitSet();
        all.set(0, circuit.watches().size());
        Set<String> looked = new TreeSet<>();
        for (Watch w : circuit.watches())
            if (w.operatingPoints().contains("key-on"))
                looked.addAll(w.measure().phases());
        assertEquals(looked, PhaseChoice.of(circuit, keyOn, all));
    }

    @Test
    void drawnFaultsShowTheSameFromFewerPhases() {
        NetworkSolver solver = new NetworkSolver(circuit, layout);
        List<List<Edit>> faults = drawn(new Random(17), 2000);
        int changed = 0;
        for (String op : List.of("key-on", "idle-warm")) {
            Predictor whole = new Predictor(circuit, solver, table, List.of(op));
            whole.prepare(faults);
            double[] healthy = whole.healthy();
            for (List<Code> asked : List.of(
                    List.of(new Code(100, 3), new Code(100, 4), new Code(3509, 4)),
                    List.of(new Code(174, 3), new Code(174, 4)))) {
                Predictor some = whole.forCodes(asked);
                some.prepare(faults);
                for (List<Edit> f : faults)
                    for (Code c : asked) {
                        int n = table.index(c);
                        double q = whole.predict(f).of(n, healthy[n]);
                        assertEquals(q, some.predict(f).of(n, healthy[n]), 1e-9, c + " at " + op + " with " + f);
                        if (Math.abs(q - healthy[n]) > 0.5) changed++;
                    }
            }
        }
        assertTrue(changed > 80, "only " + changed + " codes changed: the faults test nothing");
    }

    @Test
    void aUnitThatFallsSilentOnlyWithItsDriversOnIsSilent() {
        NetworkSolver solver = new NetworkSolver(circuit, layout);
        Predictor whole = new Predictor(circuit, solver, table, List.of("key-on"));
        Code open = new Code(174, 3);
        Edit sensor = new Edit.Series(
                Names.wire(circuit.wires().values().stream()
                        .filter(w -> w.from().equals("C-FUT/1") || w.to().equals("C-FUT/1"))
                        .findFirst()
                        .orElseThrow()
                        .id()),
                Edit.OPEN_OHMS);
        NetworkSolver.Instant rest = solver.at("key-on", "rest");
        Readout readout = new Readout(circuit.controlUnit().id(), phase -> rest.healthy());
        int silenced = 0;
        for (String wire : List.copyOf(circuit.wires().keySet()).subList(0, SUPPLY))
            for (double ohms : new double[] {0.3, 0.5, 1, 1.5, 2, 3, 5, 10, 20, 40, 80}) {
                List<Edit> fault = List.of(sensor, new Edit.Series(Names.wire(wire), ohms));
                double q = whole.predict(fault).of(table.index(open), 0);
                double narrow = whole.forCodes(List.of(open)).predict(fault).of(table.index(open), 0);
                assertEquals(q, narrow, 1e-9, "with " + ohms + " ohm in " + wire);
                boolean awakeAtRest = readout.supplyVolts(rest.solve(fault))
                        > circuit.controlUnit().minimumSupplyVolts();
                if (awakeAtRest && q < 0.01) silenced++;
            }
        assertTrue(silenced > 0, "no fault silences the unit only while its drivers are on");
    }

    /** Breaks, resistances and shorts, one to three at once; supply and ground wires of the control unit often. */
    private List<List<Edit>> drawn(Random random, int many) {
        List<String> wires = List.copyOf(circuit.wires().keySet());
        List<String> points = circuit.wires().values().stream()
                .map(w -> w.from())
                .filter(p -> p.contains("/"))
                .distinct()
                .toList();
        List<List<Edit>> out = new ArrayList<>();
        for (int i = 0; i < many; i++) {
            List<Edit> edits = new ArrayList<>();
            for (int k = random.nextInt(3); k >= 0; k--) {
                double ohms = Math.pow(10, random.nextDouble() * 4 - 2);
                int among = random.nextInt(3) == 0 ? SUPPLY : wires.size();
                String wire = Names.wire(wires.get(random.nextInt(among)));
                if (random.nextInt(3) == 0)
                    edits.add(new Edit.Bridge(
                            points.get(random.nextInt(points.size())),
                            points.get(random.nextInt(points.size())),
                            ohms));
                else edits.add(new Edit.Series(wire, random.nextBoolean() ? Edit.OPEN_OHMS : ohms));
            }
            out.add(edits);
        }
        return out;
    }
}
