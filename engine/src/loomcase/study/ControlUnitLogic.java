package loomcase.study;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.TreeSet;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.OperatingPoint;
import loomcase.model.Watch;
import loomcase.policy.FmiReading;
import loomcase.policy.Mask;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.Readout;
import loomcase.rank.Evidence;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;

/**
 * The control unit of a case: its own limits, drawn once, and what it then shows.
 *
 * <p>Each limit is drawn about its nominal value; a watch whose value lies beyond sets its condition, unless the code is
 * missed; the FMI shown is drawn from the rules' shares, and codes hide others as strongly as the rules say. A fault that
 * comes and goes and is away leaves its codes stored, each with probability {@value #KEPT}.
 */
final class ControlUnitLogic {
    private static final double KEPT = 0.9;
    private static final double LASTING_COUNT = 2;
    private static final double PASSING_COUNT = 12;
    private static final double STRAY_COUNT = 1.5;

    private final Circuit circuit;
    private final PolicyOutcome policy;
    private final World world;
    private final Map<String, Readout> readouts = new HashMap<>();

    ControlUnitLogic(Circuit circuit, PolicyOutcome policy, NetworkSolver solver, World world) {
        this.circuit = circuit;
        this.policy = policy;
        this.world = world;
        for (OperatingPoint op : circuit.operatingPoints().values()) {
            Map<String, Solution> healthy = new HashMap<>();
            readouts.put(
                    op.id(),
                    new Readout(
                            circuit.controlUnit().id(),
                            phase -> healthy.computeIfAbsent(
                                    phase, p -> solver.at(op.id(), p).healthy())));
        }
    }

    /** How far each limit of this control unit lies from nominal, in the watch's unit, by watch number. */
    double[] limits(SplittableRandom random) {
        double[] out = new double[circuit.watches().size()];
        for (int w = 0; w < out.length; w++)
            out[w] = world.spread() * circuit.watches().get(w).limit().spread() * Numbers.normal(random);
        return out;
    }

    /** Codes whose condition holds at an operating point, FMIs drawn and hidden ones left out. */
    TreeSet<Code> shown(OperatingPoint at, Map<String, Solution> phases, double[] off, SplittableRandom random) {
        Readout readout = readouts.get(at.id());
        for (Solution s : phases.values())
            if (!(readout.supplyVolts(s) >= circuit.controlUnit().minimumSupplyVolts())) return new TreeSet<>();
        TreeSet<Code> all = new TreeSet<>();
        for (int w = 0; w < off.length; w++) {
            Watch watch = circuit.watches().get(w);
            double missed = random.nextDouble();
            double share = random.nextDouble();
            if (!watch.operatingPoints().contains(at.id())) continue;
            double value = readout.value(watch, phases::get);
            double limit = watch.limit().value() + off[w];
            boolean holds = watch.limit().above() ? value > limit : value < limit;
            if (holds && missed >= world.missed()) all.add(code(watch, share));
        }
        Map<Mask, Double> draws = new LinkedHashMap<>();
        for (Mask m : policy.masks()) draws.put(m, random.nextDouble());
        TreeSet<Code> left = new TreeSet<>(all);
        draws.forEach((m, draw) -> {
            if (all.contains(new Code(m.bySpn(), m.byFmi())) && draw < m.strength())
                left.remove(new Code(m.hidesSpn(), m.hidesFmi()));
        });
        return left;
    }

    private Code code(Watch watch, double share) {
        double left = share;
        for (FmiReading r : policy.readings()) {
            if (!r.circuitKind().equals(watch.circuitKind()) || r.conditionFmi() != watch.fmi()) continue;
            left -= r.weight();
            if (left < 0) return new Code(watch.spn(), r.shownFmi());
        }
        return new Code(watch.spn(), watch.fmi());
    }

    /** What is read out: codes with state and count, strays included. */
    List<Evidence.Seen> read(TreeSet<Code> shown, Planted planted, boolean now, SplittableRandom random) {
        boolean passing = planted.comesAndGoes();
        TreeMap<Code, Evidence.Seen> out = new TreeMap<>();
        for (Code c : shown) {
            int count = Numbers.geometric(passing ? PASSING_COUNT : LASTING_COUNT, random);
            boolean kept = random.nextDouble() < KEPT;
            if (now || kept)
                out.put(
                        c,
                        new Evidence.Seen(
                                c, now ? Evidence.State.ACTIVE : Evidence.State.STORED, OptionalInt.of(count)));
        }
        TreeSet<Code> any = new TreeSet<>();
        circuit.watches().forEach(w -> any.add(new Code(w.spn(), w.fmi())));
        for (Code stray : any)
            if (random.nextDouble() < world.strayStored())
                out.putIfAbsent(
                        stray,
                        new Evidence.Seen(
                                stray, Evidence.State.STORED, OptionalInt.of(Numbers.geometric(STRAY_COUNT, random))));
        return List.copyOf(out.values());
    }
}
