package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import loomcase.demo.Harness;
import loomcase.faults.Hypothesis;
import loomcase.model.Edit;
import org.junit.jupiter.api.Test;

/** Faults laid over each other against the edited network factorised from nothing. */
class OverlayTest {
    private static final Harness H = Harness.TEACHING;

    @Test
    void whatIsLaidGivesTheJointSolution() {
        NetworkSolver.Instant instant = new NetworkSolver(H.circuit(), H.layout()).at("key-on", "rest");
        Random random = new Random(5);
        List<List<Edit>> faults = H.hypotheses().stream()
                .filter(h ->
                        h.cause() instanceof Hypothesis.Fixed f && !f.edits().isEmpty() && random.nextInt(5) == 0)
                .map(h -> ((Hypothesis.Fixed) h.cause()).edits())
                .toList();
        Overlay overlay = instant.overlay();
        faults.forEach(overlay::add);
        int laid = 0;
        int felt = 0;
        for (int a = 0; a < faults.size(); a++)
            for (int b = a + 1; b < faults.size(); b++) {
                if (!overlay.lay(a, b)) continue;
                laid++;
                if (overlay.surplusBound() > 1e-7) felt++;
                List<Edit> both = new ArrayList<>(faults.get(a));
                both.addAll(faults.get(b));
                Solution joint = instant.solveAfresh(both);
                for (String pin : H.circuit().controlUnit().pins().keySet()) {
                    OptionalDouble wanted = joint.volts(loomcase.model.Names.mating(pin));
                    if (wanted.isEmpty()) continue;
                    int node = instant.node(loomcase.model.Names.mating(pin)).orElseThrow();
                    assertEquals(wanted.getAsDouble(), overlay.at(node), 1e-5, pin + " under " + both);
                }
            }
        assertTrue(laid > 1000 && felt > 100, laid + " pairs laid, " + felt + " of them felt");
    }

    @Test
    void faultsOfOneWireAreNotLaid() {
        Overlay overlay =
                new NetworkSolver(H.circuit(), H.layout()).at("key-on", "rest").overlay();
        String wire = "wire:" + H.circuit().wires().keySet().iterator().next();
        overlay.add(List.of(new Edit.Series(wire, Edit.OPEN_OHMS)));
        overlay.add(List.of(new Edit.Series(wire, 30)));
        assertFalse(overlay.lay(0, 1));
    }
}
