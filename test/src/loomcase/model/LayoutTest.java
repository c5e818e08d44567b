package loomcase.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import loomcase.model.Layout.Run;
import org.junit.jupiter.api.Test;

/** Routes and lengths on small hand-drawn looms; every expected figure is read off the sketch. */
class LayoutTest {
    private static final double NEAR = 1e-9;

    /**
     * A loom; J, C, D, G, F hang at junctions, S and T lie in branches.
     *
     * <pre>
     *   J            S 0.4      T 0.9
     *  JN0 ---------- o --------- o ---- JN1 -------------- JN2   C, D
     *   G      trunk, 1.0 m               |   front, 0.5 m
     *                                     |
     *                                     | side, 0.3 m
     *                                    JN3   F
     * </pre>
     */
    private static Loom loom() {
        return new Loom()
                .branch("trunk", "JN0", "JN1", 1.0)
                .branch("front", "JN1", "JN2", 0.5)
                .branch("side", "JN3", "JN1", 0.3)
                .connector("J", "JN0")
                .connector("C", "JN2")
                .connector("D", "JN2")
                .splice("S", "trunk", 0.4)
                .splice("T", "trunk", 0.9)
                .ground("G", "JN0")
                .fuse("F", "JN3");
    }

    private static void route(String from, String to, double metres, Run... runs) {
        Circuit circuit = loom().wire("W", from, to).circuit();
        Layout layout = new Layout(circuit);
        assertEquals(List.of(), layout.problems());
        assertEquals(runs.length, layout.runs("W").size(), layout.runs("W").toString());
        for (int i = 0; i < runs.length; i++) {
            assertEquals(runs[i].branch(), layout.runs("W").get(i).branch());
            assertEquals(runs[i].fromMetres(), layout.runs("W").get(i).fromMetres(), NEAR);
            assertEquals(runs[i].toMetres(), layout.runs("W").get(i).toMetres(), NEAR);
        }
        assertEquals(metres, layout.metres(circuit.wires().get("W")), NEAR);
    }

    @Test
    void alongTheTrunkAndOut() {
        route("J/1", "C/1", 1.0 + 0.5 + 0.1, new Run("trunk", 0, 1), new Run("front", 0, 0.5));
    }

    @Test
    void theSameBackwards() {
        route("C/1", "J/1", 1.6, new Run("front", 0, 0.5), new Run("trunk", 0, 1));
    }

    @Test
    void aroundTheJunctionWithoutTheTrunk() {
        route("F/out", "C/1", 0.3 + 0.5 + 0.1, new Run("side", 0, 0.3), new Run("front", 0, 0.5));
    }

    @Test
    void intoASpliceInTheMiddleOfABranch() {
        route("J/1", "S", 0.4 + 0.1, new Run("trunk", 0, 0.4));
        route("C/1", "S", 0.5 + 0.6 + 0.1, new Run("front", 0, 0.5), new Run("trunk", 0.4, 1));
    }

    @Test
    void pastASplice() {
        route("J/1", "T", 0.9 + 0.1, new Run("trunk", 0, 0.9));
    }

    @Test
    void fromSpliceToSplice() {
        route("S", "T", 0.5 + 0.1, new Run("trunk", 0.4, 0.9));
        route("T", "S", 0.5 + 0.1, new Run("trunk", 0.4, 0.9));
    }

    @Test
    void bothEndsAtOneJunction() {
        route("C/1", "D/1", 0.1);
        route("J/2", "G", 0.1);
    }

    @Test
    void statedLengthIsKeptAndTheRouteToo() {
        Circuit circuit = loom().wire("W", "J/1", "C/1", 2.75).circuit();
        Layout layout = new Layout(circuit);
        assertEquals(2.75, layout.metres(circuit.wires().get("W")));
        assertEquals(2, layout.runs("W").size());
    }

    @Test
    void splicesAtTheEndsOfABranchAddNoStretch() {
        Circuit circuit = loom().splice("A", "front", 0)
                .splice("B", "front", 0.5)
                .wire("W1", "A", "B")
                .wire("W2", "T", "A")
                .circuit();
        Layout layout = new Layout(circuit);
        assertEquals(List.of(new Run("front", 0, 0.5)), layout.runs("W1"));
        assertEquals(List.of(new Run("trunk", 0.9, 1)), layout.runs("W2"));
    }

    @Test
    void wiresThatPassAPoint() {
        Circuit circuit = loom().wire("W1", "J/1", "S")
                .wire("W2", "S", "C/1")
                .wire("W3", "F/in", "D/1")
                .wire("W4", "J/2", "G")
                .circuit();
        Layout layout = new Layout(circuit);
        assertEquals("[W1]", ids(layout.passing("trunk", 0.2)));
        assertEquals("[W1, W2]", ids(layout.passing("trunk", 0.4)));
        assertEquals("[W2]", ids(layout.passing("trunk", 0.7)));
        assertEquals("[W2, W3]", ids(layout.in("front")));
        assertEquals("[W3]", ids(layout.in("side")));
    }

    private static String ids(List<Wire> wires) {
        return wires.stream().map(Wire::id).toList().toString();
    }

    @Test
    void whereAPointHangs() {
        Layout layout = new Layout(loom().circuit());
        assertEquals(Optional.of("JN2"), layout.whereIs("C/1"));
        assertEquals(Optional.of("JN0"), layout.whereIs("G"));
        assertEquals(Optional.of("JN3"), layout.whereIs("F/in"));
        assertTrue(layout.whereIs("S").isPresent());
        assertEquals(Optional.empty(), layout.whereIs("nowhere"));
    }

    /**
     * <pre>
     *  JN0 --trunk-- JN1 --front-- JN2
     *   |             |
     *   +----back-----+   (JN0 to JN3 to JN1 by side)
     * </pre>
     */
    @Test
    void loopIsFoundOnceAndNamesABranchOfIt() {
        Layout layout = new Layout(loom().branch("back", "JN0", "JN3", 0.7).circuit());
        assertEquals(
                List.of(
                        "branch trunk closes a loop of branches at JN1; a loom is a tree, so remove or re-end one branch of"
                                + " the loop"),
                layout.problems());
    }

    @Test
    void loopOfOneBranchAndOfTwo() {
        assertEquals(
                List.of(
                        "branch ring closes a loop of branches at JN2; a loom is a tree, so remove or re-end one branch of"
                                + " the loop"),
                new Layout(loom().branch("ring", "JN2", "JN2", 0.7).circuit()).problems());
        assertEquals(
                List.of(
                        "branch twin closes a loop of branches at JN2; a loom is a tree, so remove or re-end one branch of"
                                + " the loop"),
                new Layout(loom().branch("twin", "JN1", "JN2", 0.7).circuit()).problems());
    }

    @Test
    void looseJunctionsAreNamed() {
        assertEquals(
                List.of(
                        "junction JN8 is not joined to JN0 by branches; add the branch between them",
                        "junction JN9 is not joined to JN0 by branches; add the branch between them"),
                new Layout(loom().branch("loose", "JN8", "JN9", 0.7).circuit()).problems());
    }

    @Test
    void noBranchesAtAll() {
        assertEquals(List.of("the circuit has no branches"), new Layout(new Loom().circuit()).problems());
    }

    /** The slow twin: a random tree, distances by Floyd and Warshall's recurrence over its junctions. */
    @Test
    void lengthsEqualShortestPathsInRandomTrees() {
        Random random = new Random(4711);
        for (int round = 0; round < 30; round++) {
            int n = 2 + random.nextInt(12);
            double[][] metres = new double[n][n];
            for (double[] row : metres) java.util.Arrays.fill(row, 1e9);
            Loom loom = new Loom().connector("C0", "N0");
            for (int i = 1; i < n; i++) {
                int other = random.nextInt(i);
                double length = 0.1 + random.nextInt(40) / 16.0;
                boolean forth = random.nextBoolean();
                loom.branch("B" + i, "N" + (forth ? i : other), "N" + (forth ? other : i), length);
                loom.connector("C" + i, "N" + i);
                metres[i][other] = length;
                metres[other][i] = length;
            }
            for (int k = 0; k < n; k++)
                for (int i = 0; i < n; i++)
                    for (int j = 0; j < n; j++)
                        metres[i][j] = i == j ? 0 : Math.min(metres[i][j], metres[i][k] + metres[k][j]);
            for (int i = 0; i < n; i++)
                for (int j = 0; j < n; j++) if (i != j) loom.wire("W" + i + "-" + j, "C" + i + "/1", "C" + j + "/1");
            Circuit circuit = loom.circuit();
            Layout layout = new Layout(circuit);
            assertEquals(List.of(), layout.problems());
            for (int i = 0; i < n; i++)
                for (int j = 0; j < n; j++)
                    if (i != j)
                        assertEquals(
                                metres[i][j] + 2 * Layout.TAIL_METRES,
                                layout.metres(circuit.wires().get("W" + i + "-" + j)),
                                1e-9);
        }
    }

    /** A circuit with a loom and nothing else. */
    private static final class Loom {
        private static final Zone ZONE = new Zone("Z", 80, Zone.Vibration.LOW, Zone.Fluid.DRY);

        private final Map<String, Branch> branches = new LinkedHashMap<>();
        private final Map<String, Connector> connectors = new LinkedHashMap<>();
        private final Map<String, Joints.Splice> splices = new LinkedHashMap<>();
        private final Map<String, Joints.Ground> grounds = new LinkedHashMap<>();
        private final Map<String, Joints.Fuse> fuses = new LinkedHashMap<>();
        private final Map<String, Wire> wires = new LinkedHashMap<>();

        Loom branch(String id, String from, String to, double metres) {
            branches.put(id, new Branch(id, id, from, to, metres, ZONE, 0, List.of(), List.of()));
            return this;
        }

        Loom connector(String id, String at) {
            connectors.put(id, new Connector(id, id, at, "X", List.of(List.of("1", "2")), "", false, ZONE, List.of()));
            return this;
        }

        Loom splice(String id, String branch, double metresAlong) {
            splices.put(id, new Joints.Splice(id, id, branch, metresAlong));
            return this;
        }

        Loom ground(String id, String at) {
            grounds.put(id, new Joints.Ground(id, id, at, 0.001, List.of()));
            return this;
        }

        Loom fuse(String id, String at) {
            fuses.put(id, new Joints.Fuse(id, id, at, 10, 0.005, List.of()));
            return this;
        }

        Loom wire(String id, String from, String to) {
            return wire(id, from, to, OptionalDouble.empty());
        }

        Loom wire(String id, String from, String to, double metres) {
            return wire(id, from, to, OptionalDouble.of(metres));
        }

        private Loom wire(String id, String from, String to, OptionalDouble metres) {
            wires.put(id, new Wire(id, "", from, to, Conductor.parse("AWG18"), "", "", metres));
            return this;
        }

        Circuit circuit() {
            return new Circuit(
                    "loom",
                    "",
                    "invented",
                    Map.of(),
                    branches,
                    connectors,
                    splices,
                    grounds,
                    fuses,
                    Map.of(),
                    new ControlUnit("ECM", "", 0, List.of(), Map.of(), Map.of(), 6),
                    wires,
                    new ArrayList<>(),
                    Map.of(),
                    new Costs("CU", BigDecimal.ONE, BigDecimal.ONE, 1, List.of(), Map.of(), Map.of(), BigDecimal.ONE));
        }
    }
}
