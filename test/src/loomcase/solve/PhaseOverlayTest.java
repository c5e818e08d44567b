package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import loomcase.demo.Harness;
import loomcase.faults.Hypothesis;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import org.junit.jupiter.api.Test;

/**
 * A phase laid over faults solved in another one, against the edited network of that phase factorised from nothing, which is
 * held against ngspice elsewhere.
 */
class PhaseOverlayTest {
    private static final Harness H = Harness.LARCH;
    /** Volts by which what is laid may be off. */
    private static final double LAID = 1e-5;

    /** Volts by which what is solved may be off, refined only where it has lost nine digits. */
    private static final double SOLVED = 1e-4;

    private static final NetworkSolver SOLVER = new NetworkSolver(H.circuit(), H.layout());

    @Test
    void whatIsLaidIsTheSolutionOfThePhase() {
        List<List<Edit>> faults = drawn(new Random(8));
        for (OperatingPoint op : H.circuit().operatingPoints().values()) {
            NetworkSolver.Instant first = SOLVER.at(op.id(), "rest");
            List<FaultTrace> traces = faults.stream().map(first::trace).toList();
            for (OperatingPoint.Phase phase : op.phases()) {
                if (phase.id().equals("rest")) continue;
                NetworkSolver.Instant second = SOLVER.at(op.id(), phase.id());
                PhaseOverlay overlay = SOLVER.over(op.id(), "rest", phase.id());
                int laid = 0;
                for (int f = 0; f < faults.size(); f++)
                    if (overlay.lay(traces.get(f))) {
                        laid++;
                        compare(
                                second.solveAfresh(faults.get(f)),
                                second,
                                overlay,
                                LAID,
                                op.id() + ", " + phase.id() + " under " + faults.get(f));
                    }
                double share = laid / (double) faults.size();
                assertTrue(share > 0.7, op.id() + ", " + phase.id() + ": only a share of " + share + " laid");
            }
        }
    }

    @Test
    void whatCannotBeLaidIsSolvedInThePhase() {
        List<List<Edit>> faults = drawn(new Random(9));
        for (OperatingPoint op : H.circuit().operatingPoints().values()) {
            NetworkSolver.Instant first = SOLVER.at(op.id(), "rest");
            for (String phase : List.of("drive", "slot-1")) {
                NetworkSolver.Instant second = SOLVER.at(op.id(), phase);
                PhaseOverlay overlay = SOLVER.over(op.id(), "rest", phase);
                int solved = 0;
                int onlyOneSettles = 0;
                for (List<Edit> fault : faults) {
                    if (overlay.lay(first.trace(fault))) continue;
                    Solution wanted = second.solveAfresh(fault);
                    Solution got = overlay.solve(fault);
                    String when = op.id() + ", " + phase + " under " + fault;
                    // From other regions the search may end where the parts agree, or go in circles.
                    if (wanted.settled() != got.settled()) onlyOneSettles++;
                    if (!wanted.settled() || !got.settled()) continue;
                    solved++;
                    compare(wanted, second, got, SOLVED, when);
                }
                assertTrue(onlyOneSettles <= 1, op.id() + ", " + phase + ": " + onlyOneSettles);
                assertTrue(solved > 20, op.id() + ", " + phase + ": only " + solved + " solved");
            }
        }
    }

    @Test
    void noPartIsLedOverABorder() {
        List<List<Edit>> faults =
                Stream.concat(all().stream(), drawn(new Random(10)).stream()).toList();
        for (OperatingPoint op : H.circuit().operatingPoints().values()) {
            NetworkSolver.Instant first = SOLVER.at(op.id(), "rest");
            List<FaultTrace> traces = faults.stream().map(first::trace).toList();
            for (OperatingPoint.Phase phase : op.phases()) {
                if (phase.id().equals("rest")) continue;
                PhaseOverlay overlay = SOLVER.over(op.id(), "rest", phase.id());
                List<Part> parts =
                        NetlistBuilder.build(H.circuit(), H.layout(), op, phase).parts();
                int[] regions = SOLVER.at(op.id(), phase.id()).healthy().regions();
                for (int f = 0; f < faults.size(); f++) {
                    if (!overlay.lay(traces.get(f))) continue;
                    for (int p = 0; p < regions.length; p++)
                        if (!traces.get(f).changedParts().get(p)
                                && parts.get(p).violation(regions[p], overlay) > 2 * Moves.SLACK)
                            fail(parts.get(p).name() + " at " + phase.id() + " under " + faults.get(f));
                }
            }
        }
    }

    private static void compare(Solution wanted, NetworkSolver.Instant at, NodeVolts got, double close, String when) {
        assertTrue(wanted.settled(), when);
        for (String pin : H.circuit().controlUnit().pins().keySet()) {
            wanted.volts(Names.mating(pin))
                    .ifPresent(volts -> assertEquals(
                            volts, got.at(at.node(Names.mating(pin)).orElseThrow()), close, pin + " at " + when));
            at.driver(pin)
                    .ifPresent(driver -> assertEquals(
                            wanted.driverAmperes(pin), got.amperes(driver), 10 * close, pin + " at " + when));
        }
    }

    private static List<List<Edit>> all() {
        return H.hypotheses().stream()
                .filter(h ->
                        h.cause() instanceof Hypothesis.Fixed f && !f.edits().isEmpty())
                .map(h -> ((Hypothesis.Fixed) h.cause()).edits())
                .toList();
    }

    /** Single faults of every kind, and pairs of them. */
    private static List<List<Edit>> drawn(Random random) {
        List<List<Edit>> all = all();
        Stream<List<Edit>> pairs = Stream.generate(() -> {
            List<Edit> both = new ArrayList<>(all.get(random.nextInt(all.size())));
            both.addAll(all.get(random.nextInt(all.size())));
            return both;
        });
        return Stream.concat(all.stream().filter(f -> random.nextInt(12) == 0), pairs.limit(200))
                .toList();
    }

    @Test
    void whatPhasesSwitchIsAllThatTheyDifferBy() {
        for (Harness h : List.of(Harness.TEACHING, H))
            for (OperatingPoint op : h.circuit().operatingPoints().values()) {
                OperatingPoint.Phase first = op.quietest();
                Netlist net = NetlistBuilder.build(h.circuit(), h.layout(), op, first);
                for (OperatingPoint.Phase p : op.phases()) {
                    Netlist whole = NetlistBuilder.build(h.circuit(), h.layout(), op, p);
                    Netlist got = NetlistBuilder.switched(h.circuit(), op, first, p, net)
                            .applyTo(net);
                    assertEquals(whole.elements(), got.elements(), op.id() + ", " + p.id());
                    assertEquals(whole.parts(), got.parts(), op.id() + ", " + p.id());
                }
            }
    }

    @Test
    void whatThePhaseSwitchesIsNotLaidOverAFaultOfTheSame() {
        assertNotLaid("key-on", "slot-1", new Edit.Dead("VGT"));
        assertNotLaid("idle-warm", "drive", new Edit.Series("device:CKP/coil", Edit.OPEN_OHMS));
    }

    private static void assertNotLaid(String point, String phase, Edit fault) {
        NetworkSolver.Instant first = SOLVER.at(point, "rest");
        PhaseOverlay overlay = SOLVER.over(point, "rest", phase);
        assertTrue(overlay.lay(first.trace(List.of())), "the healthy engine");
        assertFalse(overlay.lay(first.trace(List.of(fault))), fault.toString());
    }
}
