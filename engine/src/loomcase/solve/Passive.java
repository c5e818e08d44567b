package loomcase.solve;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Names;

/**
 * Makes a netlist passive: the engine at rest with the key off.
 *
 * <p>Every internal voltage is zero: pull-ups, biases and pick-ups stay as plain resistors, rails and drivers are dead.
 * Network transceivers keep the input resistance of their bias ({@link DeviceParts#BIAS_OHMS} from each line to their
 * ground), so a network without terminators still reads kilohms. The control unit's own load is electronics asleep, {@value
 * #ASLEEP_OHMS} ohm (judgement). Diodes, clamps and amplifiers need more than an ohmmeter's test voltage or a supply and
 * so do not conduct. A battery that is disconnected is open; one that is connected keeps its voltage.
 *
 * <p>The network keeps its shape: the same nodes, elements and parts with other values. The model has no key switch, so
 * with the battery connected a feed behind the key stays live; ohms are for a disconnected battery or a wire unplugged at
 * both ends.
 */
final class Passive {
    static final double ASLEEP_OHMS = 100_000;

    private Passive() {}

    static void make(Netlist net, Circuit circuit, boolean batteryConnected) {
        Set<String> cells = new HashSet<>();
        for (Device d : circuit.batteries())
            for (String supply : DeviceParts.SUPPLIES) cells.add(Names.device(d.id(), supply));
        for (int i = 0; i < net.elements().size(); i++) {
            Netlist.Element e = net.elements().get(i);
            if (cells.contains(e.name())) {
                if (!batteryConnected) {
                    net.replace(i, quiet(e, Edit.OPEN_OHMS));
                    net.rename(i, "disconnected:" + e.name());
                }
            } else if (e.name().startsWith(ControlUnitParts.LOAD)) net.replace(i, quiet(e, ASLEEP_OHMS));
            else if (e.name().startsWith(ControlUnitParts.IDLE)) net.replace(i, quiet(e, ControlUnitParts.BOND_OHMS));
            else if (e.volts() != 0) net.replace(i, quiet(e, e.ohms()));
        }
        for (int p = 0; p < net.parts().size(); p++)
            if (ControlUnitParts.isSupply(net.parts().get(p)))
                net.replace(p, net.parts().get(p).dead());
        for (Device d : circuit.devices().values()) if (d.nature() instanceof Device.Node) transceiver(net, d);
    }

    private static Netlist.Element quiet(Netlist.Element e, double ohms) {
        return new Netlist.Element(e.name(), e.a(), e.b(), ohms, 0, e.opensAbove());
    }

    private static void transceiver(Netlist net, Device d) {
        int part = net.findPart(Names.device(d.id(), "transceiver")).orElseThrow();
        int ground = net.need(Names.mating(d.terminals().get("ground")));
        int high = net.need(Names.mating(d.terminals().get("canHigh")));
        int low = net.need(Names.mating(d.terminals().get("canLow")));
        Part awake = net.parts().get(part);
        net.replace(
                part,
                new Part(
                        awake.name(),
                        Optional.empty(),
                        awake.probe(),
                        awake.breaks(),
                        List.of(List.of(
                                Stamp.branch(high, ground, 1 / DeviceParts.BIAS_OHMS, 0),
                                Stamp.branch(low, ground, 1 / DeviceParts.BIAS_OHMS, 0)))));
    }
}
