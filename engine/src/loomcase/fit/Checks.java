package loomcase.fit;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.meter.Meter;
import loomcase.meter.Setup;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Copper;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;

/**
 * Continuity checks: for a cavity the nearest other end of its circuit, the ohms that the wire between them should have, and
 * what the same two points read when another terminal sits in the cavity.
 *
 * <p>Readings come from the network with the plugs apart and the battery isolated. Not thread-safe.
 */
final class Checks {
    /** Most that stranded wire measures over solid copper of its size, see the tables in test/data/wiring. */
    private static final double STRANDED = 1.28;

    /** Left over of zeroed leads and two probes (judgement). */
    private static final double PROBES_OHMS = 0.2;

    private static final double CELSIUS = 20;

    private final Circuit circuit;
    private final Copper copper;
    private final NetworkSolver solver;
    private final FitResult fit;
    private final Optional<NetworkSolver> ofNew;
    private final Map<List<String>, NetworkSolver.Instant> apart = new HashMap<>();
    private final Map<String, Optional<Slip.Check>> known = new LinkedHashMap<>();

    Checks(FitResult fit, NetworkSolver solver) {
        this.circuit = fit.old();
        this.copper = Copper.of(circuit);
        this.solver = solver;
        this.fit = fit;
        this.ofNew = fit.neu().map(c -> new NetworkSolver(c, new Layout(c)));
    }

    /** What two points are to each other electrically: the same when one piece of copper, or both are ground. */
    boolean same(String a, String b) {
        String x = copper.net(a);
        String y = copper.net(b);
        return x.equals(y) || ground(x) && ground(y);
    }

    private boolean ground(String net) {
        return circuit.grounds().keySet().stream().anyMatch(g -> copper.net(g).equals(net));
    }

    /** The check of a cavity; empty where its wire ends at nothing that a lead can touch. */
    Optional<Slip.Check> of(String cavity) {
        return known.computeIfAbsent(cavity, this::make);
    }

    private Optional<Slip.Check> make(String cavity) {
        Optional<String> far = far(cavity);
        if (far.isEmpty()) return Optional.empty();
        List<String> plugs = new ArrayList<>(List.of(Names.connectorOf(cavity)));
        if (circuit.connectors().containsKey(Names.connectorOf(far.get()))) plugs.add(Names.connectorOf(far.get()));
        OptionalDouble neu = ofNewWire(cavity, far.get(), plugs);
        double expected = neu.orElseGet(() -> ohms(instant(plugs), cavity, far.get()));
        return Optional.of(
                new Slip.Check(cavity, far.get(), plugs, expected, expected * STRANDED + PROBES_OHMS, neu.isPresent()));
    }

    /** Ohms between the points of a check when the terminal that belongs in {@code terminal} sits in its cavity. */
    double reading(Slip.Check check, String terminal) {
        return ohms(instant(check.apart()), terminal, check.far());
    }

    private NetworkSolver.Instant instant(List<String> plugs) {
        return apart.computeIfAbsent(plugs, p -> solver.keyOff(false, OptionalDouble.of(CELSIUS))
                .with(Setup.batteryOff().unplug(p).edits(circuit)));
    }

    private OptionalDouble ofNewWire(String cavity, String far, List<String> plugs) {
        String a = fit.cavities().get(cavity);
        String b = fit.cavities().get(far);
        if (ofNew.isEmpty() || a == null || b == null || plugs.size() < 2) return OptionalDouble.empty();
        Circuit neu = fit.neu().orElseThrow();
        NetworkSolver.Instant instant = ofNew.get()
                .keyOff(false, OptionalDouble.of(CELSIUS))
                .with(Setup.batteryOff()
                        .unplug(List.of(Names.connectorOf(a), Names.connectorOf(b)))
                        .edits(neu));
        double ohms = ohms(instant, a, b);
        return Double.isFinite(ohms) ? OptionalDouble.of(ohms) : OptionalDouble.empty();
    }

    private static double ohms(NetworkSolver.Instant instant, String a, String b) {
        Meter m = Meter.USUAL;
        Solution s = instant.solve(List.of(new Edit.Source(a, b, m.testVolts(), m.testOhms())));
        OptionalDouble volts = s.volts(a, b);
        if (volts.isEmpty()) return Double.POSITIVE_INFINITY;
        double v = volts.getAsDouble();
        double ohms = m.testOhms() * v / (m.testVolts() - v);
        return ohms >= 0 && ohms < m.fullScaleOhms() ? ohms : Double.POSITIVE_INFINITY;
    }

    /** The end of the circuit that the fewest joints away can be touched; the cavity's own plug and its other half do not count. */
    private Optional<String> far(String cavity) {
        String plug = Names.connectorOf(cavity);
        String mate = circuit.connectors().get(plug).mates();
        Set<String> seen = new HashSet<>(Set.of(cavity));
        ArrayDeque<String> open = new ArrayDeque<>(seen);
        while (!open.isEmpty()) {
            String here = open.remove();
            String owner = Names.connectorOf(here);
            if (!here.equals(cavity) && !owner.equals(plug) && touchable(here)) return Optional.of(here);
            for (String next : copper.joinedTo(here))
                if (!Names.connectorOf(next).equals(mate) && seen.add(next)) open.add(next);
        }
        return Optional.empty();
    }

    private boolean touchable(String point) {
        Connector c = circuit.connectors().get(Names.connectorOf(point));
        return c != null && point.contains("/")
                || circuit.grounds().containsKey(point)
                || circuit.fuses().containsKey(Names.connectorOf(point));
    }

    /** Gives back the memory of what was solved. */
    void forget() {
        apart.values().forEach(at -> at.forgetBeyond(0));
        apart.clear();
    }
}
