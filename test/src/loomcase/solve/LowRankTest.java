package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import loomcase.model.Edit;
import loomcase.model.Names;
import org.junit.jupiter.api.Test;

/**
 * The low-rank solver against its slow twin, which factorises every edited network from nothing and starts from other
 * regions.
 */
class LowRankTest {
    private static final double VOLTS = 1e-6;
    private static final double RELATIVE = 1e-6;

    /** Largest share of draws without a solution: a sensor that starves itself when on and is fed when off. */
    private static final double UNSETTLED_SHARE = 0.002;

    /** Largest current in amperes that Kirchhoff's law may find missing at a node: 14 V to 16 digits through 1 mohm, with room. */
    private static final double AMPERES = 1e-9;

    @Test
    void teachingHarness() {
        compare("teaching", 4000, 31);
    }

    @Test
    void referenceHarness() {
        compare("larch-13", 2500, 32);
    }

    @Test
    void everyBranchOfBothHarnessesCutWholly() {
        for (String name : List.of("teaching", "larch-13")) {
            RandomEdits draw = new RandomEdits(RandomEdits.circuit(name), 1);
            NetworkSolver solver = new NetworkSolver(draw.circuit, draw.layout);
            for (String branch : draw.circuit.branches().keySet()) {
                List<Edit> edits = new ArrayList<>();
                draw.layout.in(branch).forEach(w -> edits.add(new Edit.Series(Names.wire(w.id()), Edit.OPEN_OHMS)));
                for (String op : draw.circuit.operatingPoints().keySet())
                    assertTrue(same(solver, new RandomEdits.When(op, "rest"), edits), name + " " + branch);
            }
        }
    }

    private static void compare(String name, int count, long seed) {
        RandomEdits draw = new RandomEdits(RandomEdits.circuit(name), seed);
        NetworkSolver solver = new NetworkSolver(draw.circuit, draw.layout);
        int unsettled = 0;
        for (int i = 0; i < count; i++) if (!same(solver, draw.when(), draw.edits())) unsettled++;
        assertTrue(unsettled <= UNSETTLED_SHARE * count, unsettled + " of " + count + " do not settle");
    }

    /** Compares one case; false when neither settles. */
    private static boolean same(NetworkSolver solver, RandomEdits.When when, List<Edit> edits) {
        String words = RandomEdits.words(when, edits);
        NetworkSolver.Instant instant = solver.at(when.operatingPoint(), when.phase());
        Solution fast = instant.solve(edits);
        Solution slow = instant.solveAfresh(edits);
        for (double v : fast.nodeVolts()) assertTrue(Double.isFinite(v), words);
        if (!slow.settled() || !fast.settled()) {
            assertEquals(slow.settled(), fast.settled(), words);
            return false;
        }
        assertEquals(slow.openedFuses(), fast.openedFuses(), words);
        assertArrayEquals(slow.regions(), fast.regions(), words);
        double[] a = fast.nodeVolts();
        double[] b = slow.nodeVolts();
        for (int n = 0; n < a.length; n++)
            assertEquals(b[n], a[n], Math.max(VOLTS, RELATIVE * Math.abs(b[n])), words + " node " + n);
        Netlist net = fast.net();
        double[] missing = DirectSolver.residual(net, Changes.none(), net.parts(), fast.regions(), a);
        for (int n = 1; n < missing.length; n++) assertEquals(0, missing[n], AMPERES, words + " node " + n);
        return true;
    }
}
