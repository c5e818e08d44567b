package loomcase.solve;

import java.util.List;
import java.util.OptionalDouble;
import loomcase.model.Names;

/**
 * Voltages and currents of a network under a hypothesis at one instant.
 *
 * <p>A solution that is not {@link #settled()} is the last iterate of a network whose piecewise-linear parts found no
 * common region; it is returned, marked, rather than thrown.
 */
public final class Solution implements NodeVolts {
    private final Netlist healthy;
    private final Changes changes;
    private final double[] volts;
    private final int[] regions;
    private final boolean settled;
    private final List<String> openedFuses;

    /**
     * @param healthy the network before the changes
     * @param changes what the hypothesis changed, opened fuses included
     * @param volts by node number, chassis first, all nodes or only the active ones; kept, not copied
     * @param regions by part number; kept, not copied
     */
    Solution(
            Netlist healthy,
            Changes changes,
            double[] volts,
            int[] regions,
            boolean settled,
            List<String> openedFuses) {
        this.healthy = healthy;
        this.changes = changes;
        this.volts = volts;
        this.regions = regions;
        this.settled = settled;
        this.openedFuses = List.copyOf(openedFuses);
    }

    /** True when every part is in the region its voltages call for. */
    public boolean settled() {
        return settled;
    }

    /** Fuses that the fault has opened, by element name. */
    public List<String> openedFuses() {
        return openedFuses;
    }

    /** The same network and changes with other voltages. */
    Solution with(double[] otherVolts, int[] otherRegions) {
        return new Solution(healthy, changes, otherVolts, otherRegions, true, openedFuses);
    }

    /** The network this is a solution of, changes included. */
    Netlist net() {
        return changes.applyTo(healthy);
    }

    double[] nodeVolts() {
        return volts;
    }

    int[] regions() {
        return regions;
    }

    @Override
    public double at(int node) {
        return volts[node];
    }

    /** Voltage of a point against the chassis; empty when the network has no such point. */
    public OptionalDouble volts(String point) {
        var node = healthy.find(point);
        return node.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(at(node.getAsInt()));
    }

    /** Voltage of a point against another. */
    public OptionalDouble volts(String point, String against) {
        OptionalDouble a = volts(point);
        OptionalDouble b = volts(against);
        return a.isEmpty() || b.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(a.getAsDouble() - b.getAsDouble());
    }

    /** Current in amperes through an element, from its first end to its second. */
    public OptionalDouble amperes(String element) {
        var index = healthy.findElement(element);
        if (index.isPresent())
            return OptionalDouble.of(changes.element(healthy, index.getAsInt()).current(volts));
        return partAmperes(element);
    }

    private OptionalDouble partAmperes(String name) {
        var found = healthy.findPart(name);
        if (found.isEmpty()) return OptionalDouble.empty();
        return OptionalDouble.of(amperes(found.getAsInt()));
    }

    @Override
    public double amperes(int driver) {
        // Most drivers are off most of the time, and all hypotheses ask for all of them.
        return regions[driver] == Part.OFF ? 0 : changes.part(healthy, driver).current(regions[driver], volts);
    }

    /** Current in amperes through the driver of a control-unit pin; 0 when the driver is off. */
    public double driverAmperes(String cavity) {
        return partAmperes(ControlUnitParts.driver(cavity)).orElse(0);
    }

    /** Supply of the control unit in volts, between its power and ground inside; 0 when it has none. */
    public double supplyVolts(String controlUnit) {
        return volts(Names.inside(controlUnit, "power"), Names.inside(controlUnit, "ground"))
                .orElse(0);
    }

    /** Voltage of a control-unit pin against the unit's own ground; empty when the pin is not wired. */
    public OptionalDouble pinVolts(String controlUnit, String cavity) {
        return volts(Names.mating(cavity), Names.inside(controlUnit, "ground"));
    }
}
