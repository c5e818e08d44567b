package loomcase.model;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The harness of one engine build with everything that plugs into it: the root of the model.
 *
 * <p>Maps keep the order of the file, so every list made from them is stable.
 *
 * @param id short name
 * @param title in words
 * @param origin where the data come from; invented data say so here
 * @param operatingPoints by id
 * @param branches by id
 * @param connectors by id
 * @param splices by id
 * @param grounds by id
 * @param fuses by id
 * @param devices by id
 * @param controlUnit the unit that watches
 * @param wires by id
 * @param watches every code it can set
 * @param access access steps by id
 * @param costs prices
 */
public record Circuit(
        String id,
        String title,
        String origin,
        Map<String, OperatingPoint> operatingPoints,
        Map<String, Branch> branches,
        Map<String, Connector> connectors,
        Map<String, Joints.Splice> splices,
        Map<String, Joints.Ground> grounds,
        Map<String, Joints.Fuse> fuses,
        Map<String, Device> devices,
        ControlUnit controlUnit,
        Map<String, Wire> wires,
        List<Watch> watches,
        Map<String, AccessStep> access,
        Costs costs) {

    public Circuit {
        operatingPoints = Ordered.copy(operatingPoints);
        branches = Ordered.copy(branches);
        connectors = Ordered.copy(connectors);
        splices = Ordered.copy(splices);
        grounds = Ordered.copy(grounds);
        fuses = Ordered.copy(fuses);
        devices = Ordered.copy(devices);
        wires = Ordered.copy(wires);
        watches = List.copyOf(watches);
        access = Ordered.copy(access);
    }

    /** The first operating point with the engine running, or with it stopped; empty where the circuit has none. */
    public Optional<OperatingPoint> firstPoint(boolean running) {
        return operatingPoints.values().stream()
                .filter(p -> p.engineRunning() == running)
                .findFirst();
    }

    /** The first operating point with the engine stopped, else the first. */
    public OperatingPoint restingPoint() {
        return firstPoint(false)
                .orElseGet(() -> operatingPoints.values().iterator().next());
    }

    /** Every battery. */
    public List<Device> batteries() {
        return devices.values().stream()
                .filter(d -> d.nature() instanceof Device.Battery)
                .toList();
    }

    /** True for a cavity of the plug that mates a battery. */
    public boolean isAtBattery(String cavity) {
        Connector plug = connectors.get(Names.connectorOf(cavity));
        return plug != null
                && devices.containsKey(plug.mates())
                && devices.get(plug.mates()).nature() instanceof Device.Battery;
    }
}
