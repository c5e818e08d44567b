package loomcase.meter;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.Once;
import loomcase.model.Circuit;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.predict.Dictionary;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;

/**
 * What a meter shows between two points.
 *
 * <p>Volts: the network with the setup's plugs apart, its jumpers and the meter's own resistance between the points. Ohms:
 * the same with the meter's test source between them; {@code R = testOhms · v / (testVolts − v)}, plus the leads unless
 * zeroed. A voltage that is not within 0 to {@code testVolts} means that the circuit is live; the meter then shows nothing
 * of use, taken as over range. A meter on a network line shows the average over idle and talking phases.
 *
 * <p>Standard deviation: {@code σ² = a_m² + (r_m·x)² + a² + (r·x)² + σ_size²} with the meter's and the model's absolute and
 * relative errors, and σ_size for a fault whose size is only one of a range, see {@link FaultSize}.
 *
 * <p>May be shared between threads.
 */
final class NumericPrediction {
    /** Setups kept; each holds one factorised network. */
    private static final int KEPT = 64;

    /** Columns kept for each of them, about seven kilobytes each on a large harness. */
    private static final int MOST_COLUMNS = 200;

    /**
     * Air between the halves of a plug (judgement). A break leaks a thousand times more ({@link Edit#OPEN_OHMS}), which a
     * meter of 10 Mohm on a wire that hangs free would show as a tenth of a volt.
     */
    private static final double GAP_OHMS = 1e12;

    /** Volts of uncertainty where the network finds no consistent state. */
    private static final double UNSETTLED_VOLTS = 4;

    private final Circuit circuit;
    private final NetworkSolver solver;
    private final Observations observations;
    private final Once<Nets> nets;
    private final Map<String, NetworkSolver.Instant> instants = new LinkedHashMap<>(KEPT, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, NetworkSolver.Instant> eldest) {
            return size() > KEPT;
        }
    };
    private final ReadingMemory memory;
    private final FaultSize size;

    NumericPrediction(Circuit circuit, NetworkSolver solver, Observations observations, Dictionary dictionary) {
        this.memory = new ReadingMemory(dictionary);
        this.circuit = circuit;
        this.solver = solver;
        this.observations = observations;
        this.size = new FaultSize(observations.get("fault.size.relative"), observations.get("fault.size.short"));
        this.nets = new Once<>(() -> new Nets(circuit));
    }

    /** Has the dictionary keep the readings predicted, for the next command about the same complaint. */
    void keep() {
        memory.keep();
    }

    /**
     * A predicted reading.
     *
     * @param mean volts or ohms, infinite for over range
     * @param spread extra standard deviation, same unit
     */
    record Value(double mean, double spread) {}

    Distribution predict(Test.Numeric test, List<Edit> edits) {
        Value here = memory.get(test, edits, () -> size.widened(edits, e -> plain(test, e)));
        Outcome.Unit unit = ohms(test) ? Outcome.Unit.OHMS : Outcome.Unit.VOLTS;
        double outlier = observations.get("outlier.reading");
        if (Double.isInfinite(here.mean))
            return new Distribution(List.of(new Distribution.Atom(1, new Outcome.OverRange())), outlier, 1);
        double sigma = Math.hypot(error(test, here.mean), here.spread);
        return new Distribution(List.of(new Distribution.Bell(1, here.mean, sigma, unit)), outlier, 1);
    }

    private static boolean ohms(Test.Numeric test) {
        return test instanceof Test.Ohms || test instanceof Test.Isolation;
    }

    private double error(Test.Numeric test, double mean) {
        String quantity = ohms(test) ? "ohms" : "volts";
        String model = test instanceof Test.Drop ? "drop" : quantity;
        double x = Math.abs(mean);
        double relative = Math.hypot(
                        observations.get("meter." + quantity + ".relative"),
                        observations.get("model." + model + ".relative"))
                * x;
        double absolute = Math.hypot(
                observations.get("meter." + model + ".absolute"), observations.get("model." + model + ".absolute"));
        return Math.hypot(relative, absolute);
    }

    /** Without what the size of the fault may be; a healthy engine is asked about once. */
    private Value plain(Test.Numeric test, List<Edit> edits) {
        return edits.isEmpty() ? memory.get(test, edits, () -> value(test, edits)) : value(test, edits);
    }

    private Value value(Test.Numeric test, List<Edit> edits) {
        if (ohms(test)) return resistance(test, edits);
        boolean network = nets.get().isNetwork(test.pointA()) || nets.get().isNetwork(test.pointB());
        if (network && test.setup().power() instanceof Setup.KeyOn on) return average(test, on, edits);
        return voltage(test, test.setup(), edits);
    }

    /** One thread at a time for each setup; different setups do not wait for each other. */
    private Solution solve(Setup setup, List<Edit> edits) {
        NetworkSolver.Instant instant = instant(setup);
        synchronized (instant) {
            Solution s = instant.solveQuickly(edits);
            instant.forgetBeyond(MOST_COLUMNS);
            return s;
        }
    }

    private Value voltage(Test.Numeric test, Setup setup, List<Edit> edits) {
        Edit load = new Edit.Bridge(test.pointA(), test.pointB(), setup.meter().inputOhms());
        Solution s = solve(setup, all(setup, edits, load));
        return new Value(between(s, test), s.settled() ? 0 : UNSETTLED_VOLTS);
    }

    private Value resistance(Test.Numeric test, List<Edit> edits) {
        Setup setup = test.setup();
        Meter m = setup.meter();
        Edit source = new Edit.Source(test.pointA(), test.pointB(), m.testVolts(), m.testOhms());
        double v = between(solve(setup, all(setup, edits, source)), test);
        double ohms = m.testOhms() * v / (m.testVolts() - v);
        boolean live = v > m.testVolts() * (1 + 1e-9) || v < -1e-6;
        if (live || !(ohms >= 0) && v > 0 || ohms > m.fullScaleOhms()) return new Value(Double.POSITIVE_INFINITY, 0);
        return new Value(Math.max(0, ohms) + (m.leadsZeroed() ? 0 : m.leadOhms()), 0);
    }

    /** Average over the given phase, in which the line is idle, and the phases in which somebody talks. */
    private Value average(Test.Numeric test, Setup.KeyOn on, List<Edit> edits) {
        Value idle = voltage(test, test.setup(), edits);
        List<String> talking = point(on.operatingPoint()).phases().stream()
                .filter(p -> p.on().stream().anyMatch(this::talks))
                .map(OperatingPoint.Phase::id)
                .filter(p -> !p.equals(on.phase()))
                .toList();
        if (talking.isEmpty()) return idle;
        double sum = 0;
        for (String phase : talking) {
            Setup there = new Setup(
                    new Setup.KeyOn(on.operatingPoint(), phase),
                    test.setup().unplugged(),
                    test.setup().jumpers(),
                    test.setup().wireCelsius(),
                    test.setup().meter());
            sum += voltage(test, there, edits).mean;
        }
        double change = sum / talking.size() - idle.mean;
        return new Value(
                idle.mean + observations.get("bus.load") * change,
                Math.hypot(idle.spread, observations.get("bus.load.spread") * change));
    }

    private boolean talks(String active) {
        Device d = circuit.devices().get(active);
        return d != null && d.nature() instanceof Device.Node
                || circuit.controlUnit().pins().containsKey(active)
                        && nets.get().isNetwork(active);
    }

    private static double between(Solution s, Test.Numeric test) {
        OptionalDouble v = s.volts(test.pointA(), test.pointB());
        if (v.isPresent()) return v.getAsDouble();
        String missing = s.volts(test.pointA()).isEmpty() ? test.pointA() : test.pointB();
        throw new InputProblem("the circuit has no point '" + missing
                + "' that a wire reaches; points are CONNECTOR/CAVITY, a splice, a ground stud, FUSE/in, FUSE/out or "
                + Names.CHASSIS);
    }

    private List<Edit> all(Setup setup, List<Edit> edits, Edit meter) {
        List<Edit> out = Faults.under(circuit, setup, edits);
        out.addAll(setup.jumperEdits());
        out.add(meter);
        return out;
    }

    private OperatingPoint point(String id) {
        OperatingPoint op = circuit.operatingPoints().get(id);
        if (op == null)
            throw new InputProblem("the circuit has no operating point '" + id + "'; it has "
                    + String.join(", ", circuit.operatingPoints().keySet()));
        return op;
    }

    private synchronized NetworkSolver.Instant instant(Setup setup) {
        String key = setup.power() + " " + setup.unplugged() + " " + setup.wireCelsius();
        NetworkSolver.Instant known = instants.get(key);
        if (known != null) return known;
        NetworkSolver.Instant whole;
        if (setup.power() instanceof Setup.KeyOn on) {
            if (!point(on.operatingPoint()).has(on.phase()))
                throw new InputProblem(
                        "operating point '" + on.operatingPoint() + "' has no phase '" + on.phase() + "'");
            whole = solver.at(on.operatingPoint(), on.phase(), setup.wireCelsius());
        } else if (setup.power() instanceof Setup.KeyOff off)
            whole = solver.keyOff(off.batteryConnected(), setup.wireCelsius());
        else throw new IllegalStateException("unknown power " + setup.power());
        NetworkSolver.Instant out = setup.unplugged().isEmpty() ? whole : whole.with(setup.apart(circuit, GAP_OHMS));
        instants.put(key, out);
        return out;
    }
}
