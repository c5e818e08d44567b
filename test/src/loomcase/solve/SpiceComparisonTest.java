package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import loomcase.model.Edit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every node voltage of drawn hypotheses against ngspice (independent simulator, https://ngspice.sourceforge.io), live.
 *
 * <p>What may differ, and is counted: a network that has no operating point in our sense (a sensor that would starve its
 * own supply when on and feed it when off; ours is marked unsettled, ngspice rests inside the gate's ramp), and one with
 * two operating points that differ in which supply gates or relays are closed. A difference is taken for the second kind
 * only when the regions that ngspice's voltages call for, solved by us, give ngspice's voltages and stay where they are.
 */
class SpiceComparisonTest {
    private static final double ABSOLUTE_VOLTS = 1e-3;
    private static final double RELATIVE = 1e-3;

    /** Largest share of drawn cases that may have no operating point, or two. */
    private static final double ODD_SHARE = 0.01;

    @Test
    void teachingHarnessAgreesOnEveryNode(@TempDir Path folder) throws Exception {
        compare("teaching", 300, 20_251, folder);
    }

    @Test
    void referenceHarnessAgreesOnEveryNode(@TempDir Path folder) throws Exception {
        compare("larch-13", 510, 20_252, folder);
    }

    private record Drawn(String words, Solution ours, String deck) {}

    private static void compare(String name, int count, long seed, Path folder) throws Exception {
        RandomEdits draw = new RandomEdits(RandomEdits.circuit(name), seed);
        NetworkSolver solver = new NetworkSolver(draw.circuit, draw.layout);
        List<Drawn> drawn = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            RandomEdits.When when = draw.when();
            List<Edit> edits = draw.edits();
            NetworkSolver.Instant instant = solver.at(when.operatingPoint(), when.phase());
            drawn.add(new Drawn(RandomEdits.words(when, edits), instant.solve(edits), instant.spiceDeck(edits)));
        }
        List<Optional<double[]>> ngspice = Ngspice.run(
                folder,
                drawn.stream().map(Drawn::deck).toList(),
                drawn.stream().map(d -> d.ours().nodeVolts().length).toList());
        List<String> wrong = new ArrayList<>();
        List<String> odd = new ArrayList<>();
        for (int i = 0; i < count; i++) judge(drawn.get(i), ngspice.get(i), wrong, odd);
        assertEquals(List.of(), wrong, wrong.size() + " of " + count + " differ");
        assertTrue(odd.size() <= ODD_SHARE * count, odd.size() + " of " + count + " have no or two solutions: " + odd);
    }

    private static void judge(Drawn drawn, Optional<double[]> ngspice, List<String> wrong, List<String> odd) {
        if (!drawn.ours().settled()) {
            odd.add("unsettled: " + drawn.words());
            return;
        }
        if (ngspice.isEmpty()) {
            wrong.add("ngspice has no operating point: " + drawn.words());
            return;
        }
        String difference =
                worst(drawn.ours().nodeVolts(), ngspice.get(), drawn.ours().net());
        if (difference.isEmpty()) return;
        if (isSecondSolution(drawn.ours(), ngspice.get())) odd.add("two solutions: " + drawn.words());
        else wrong.add(difference + ": " + drawn.words());
    }

    private static String worst(double[] ours, double[] theirs, Netlist net) {
        double most = 1;
        String out = "";
        for (int n = 1; n < ours.length; n++) {
            double ratio = Math.abs(ours[n] - theirs[n]) / Math.max(ABSOLUTE_VOLTS, RELATIVE * Math.abs(theirs[n]));
            if (ratio <= most) continue;
            most = ratio;
            out = net.nodeNames().get(n) + " ours " + ours[n] + " ngspice " + theirs[n];
        }
        return out;
    }

    private static boolean isSecondSolution(Solution ours, double[] theirs) {
        Netlist net = ours.net();
        int[] regions = net.parts().stream().mapToInt(p -> p.regionAt(theirs)).toArray();
        if (Arrays.equals(regions, ours.regions())) return false;
        Solution other = new DirectSolver(net).solve(regions);
        return other.settled() && worst(other.nodeVolts(), theirs, net).isEmpty();
    }
}
