package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import loomcase.model.Edit;
import loomcase.model.Names;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Sources between points, the key-off instants and setups that stay, each against its slow twin. */
class SetupSolveTest {
    /** Largest difference in volts between low-rank and direct, as a share of the largest voltage of the network. */
    private static final double CLOSE = 1e-6;

    private static final int DRAWS = 150;

    @ParameterizedTest
    @ValueSource(strings = {"teaching", "larch-13"})
    void aSourceSolvedAsALowRankChangeEqualsADirectSolve(String name) {
        RandomEdits draw = new RandomEdits(RandomEdits.circuit(name), 71);
        NetworkSolver solver = new NetworkSolver(draw.circuit, draw.layout);
        for (int i = 0; i < DRAWS; i++) {
            var when = draw.when();
            List<Edit> edits = new ArrayList<>(draw.edits());
            edits.add(new Edit.Source(point(draw, i), point(draw, 3 * i + 1), 0.3 + i % 12, 1 + 999 * (i % 2)));
            compare(solver.at(when.operatingPoint(), when.phase()), edits, name + " draw " + i);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"teaching", "larch-13"})
    void keyOffSolvedAsALowRankChangeEqualsADirectSolve(String name) {
        RandomEdits draw = new RandomEdits(RandomEdits.circuit(name), 72);
        NetworkSolver solver = new NetworkSolver(draw.circuit, draw.layout);
        for (int i = 0; i < DRAWS; i++) {
            List<Edit> edits = new ArrayList<>(draw.edits());
            edits.add(new Edit.Source(point(draw, i), point(draw, 5 * i + 2), 0.3, 1000));
            compare(solver.keyOff(i % 2 == 0, OptionalDouble.empty()), edits, name + " draw " + i);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"teaching", "larch-13"})
    void aSetupThatStaysEqualsTheSameEditsMadeAfterTheFault(String name) {
        RandomEdits draw = new RandomEdits(RandomEdits.circuit(name), 73);
        NetworkSolver solver = new NetworkSolver(draw.circuit, draw.layout);
        List<String> plugs = List.copyOf(draw.circuit.connectors().keySet());
        for (int i = 0; i < 40; i++) {
            var connector = draw.circuit.connectors().get(plugs.get(i * 7 % plugs.size()));
            List<Edit> apart = new ArrayList<>();
            connector
                    .rows()
                    .forEach(row -> row.forEach(
                            c -> apart.add(new Edit.Series(Names.contact(connector.id() + "/" + c), Edit.OPEN_OHMS))));
            // a diode on an island that hangs on insulation alone may sit either side of its border within the slack
            List<Edit> fault = new ArrayList<>(draw.edits());
            connector
                    .rows()
                    .forEach(row -> row.forEach(c -> {
                        String cavity = connector.id() + "/" + c;
                        if (row.size() < 4) fault.add(new Edit.Bridge(Names.mating(cavity), Names.CHASSIS, 1e7));
                    }));
            var when = draw.when();
            var instant = solver.at(when.operatingPoint(), when.phase());
            List<Edit> both = new ArrayList<>(fault);
            both.addAll(apart);
            close(instant.with(apart).solve(fault), instant.solveAfresh(both), name + " " + connector.id() + fault);
        }
    }

    @Test
    void aDisconnectedBatteryLeavesNoVoltageAnywhere() {
        RandomEdits draw = new RandomEdits(RandomEdits.circuit("larch-13"), 1);
        Solution s = new NetworkSolver(draw.circuit, draw.layout)
                .keyOff(false, OptionalDouble.empty())
                .healthy();
        for (double v : s.nodeVolts()) assertEquals(0, v, 1e-12);
    }

    @Test
    void aConnectedBatteryStillFeedsWhatNoKeySwitches() {
        RandomEdits draw = new RandomEdits(RandomEdits.circuit("teaching"), 1);
        Solution s = new NetworkSolver(draw.circuit, draw.layout)
                .keyOff(true, OptionalDouble.empty())
                .healthy();
        double battery =
                draw.circuit.operatingPoints().values().iterator().next().batteryVolts();
        assertEquals(battery, s.volts("J1/1").orElseThrow(), 0.01);
        assertEquals(0, s.volts("J1/3").orElseThrow(), 0.01, "the 5 V rail is dead");
    }

    @Test
    void aContactTakenApartIsNotPutTogetherByAFaultOfIt() {
        RandomEdits draw = new RandomEdits(RandomEdits.circuit("teaching"), 1);
        var instant = new NetworkSolver(draw.circuit, draw.layout).at("key-on", "rest");
        var apart = instant.with(List.of(new Edit.Series("contact:C1/1", Edit.OPEN_OHMS)));
        double fretted = apart.solve(List.of(new Edit.Series("contact:C1/1", 5.0)))
                .volts("C1/1")
                .orElseThrow();
        assertTrue(fretted > 4.9, "pull-up of an unplugged sensor, got " + fretted);
    }

    private static String point(RandomEdits draw, int i) {
        List<String> wires = List.copyOf(draw.circuit.wires().keySet());
        return i % 4 == 0
                ? Names.CHASSIS
                : draw.circuit.wires().get(wires.get(i % wires.size())).from();
    }

    private static void compare(NetworkSolver.Instant instant, List<Edit> edits, String message) {
        close(instant.solve(edits), instant.solveAfresh(edits), message + " " + edits);
    }

    private static void close(Solution quick, Solution slow, String message) {
        if (!slow.settled() || !quick.settled() || !quick.openedFuses().equals(slow.openedFuses())) {
            assertEquals(slow.settled(), quick.settled(), message);
            return;
        }
        double most = 1;
        for (double v : slow.nodeVolts()) most = Math.max(most, Math.abs(v));
        for (int n = 0; n < slow.nodeVolts().length; n++) assertEquals(slow.at(n), quick.at(n), CLOSE * most, message);
    }
}
