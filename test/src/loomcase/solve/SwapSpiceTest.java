package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.faults.TerminalSlips;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.read.CircuitReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Swapped terminals of the small plug against ngspice (independent simulator, https://ngspice.sourceforge.io), live: every
 * pair of signal, supply, return and driver cavities, every node within 1 mV or 0.1 %.
 */
class SwapSpiceTest {
    private static final double ABSOLUTE_VOLTS = 1e-3;
    private static final double RELATIVE = 1e-3;

    @Test
    void swappedTerminalsAgreeOnEveryNode(@TempDir Path folder) throws Exception {
        Circuit circuit = CircuitReader.read(Path.of("circuits", "teaching.json"));
        NetworkSolver solver = new NetworkSolver(circuit, new Layout(circuit));
        NetworkSolver.Instant instant = solver.at("idle-warm", "drive");
        List<Solution> ours = new ArrayList<>();
        List<String> names = new ArrayList<>();
        List<String> decks = new ArrayList<>();
        for (int a = 3; a <= 8; a++)
            for (int b = a + 1; b <= 8; b++) {
                List<Edit> edits = TerminalSlips.swapped(circuit, "J1/" + a, "J1/" + b);
                Solution s = instant.solve(edits);
                if (!s.settled()) continue;
                ours.add(s);
                names.add(a + "-" + b);
                decks.add(instant.spiceDeck(edits));
            }
        assertTrue(ours.size() >= 12, "only " + names + " settle");
        List<Optional<double[]>> theirs = Ngspice.run(
                folder, decks, ours.stream().map(s -> s.nodeVolts().length).toList());
        List<String> wrong = new ArrayList<>();
        for (int i = 0; i < ours.size(); i++) {
            double[] mine = ours.get(i).nodeVolts();
            double[] other = theirs.get(i).orElse(new double[0]);
            if (other.length == 0) wrong.add(names.get(i) + ": ngspice has no operating point");
            for (int n = 1; n < other.length; n++)
                if (Math.abs(mine[n] - other[n]) > Math.max(ABSOLUTE_VOLTS, RELATIVE * Math.abs(other[n])))
                    wrong.add(
                            names.get(i) + " " + ours.get(i).net().nodeNames().get(n) + " " + mine[n] + " " + other[n]);
        }
        assertEquals(List.of(), wrong);
    }
}
