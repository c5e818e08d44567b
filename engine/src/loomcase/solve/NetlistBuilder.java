package loomcase.solve;

import java.util.HashSet;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Joints;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.model.Wire;

/**
 * Turns a circuit at one operating point and phase into its {@link Netlist}.
 *
 * <p>Every operating point and phase of a circuit gives the same nodes, elements and parts in the same order, only with
 * other values. Control unit, devices and fuses come first: their nodes are the ones that regions and watches depend on.
 */
final class NetlistBuilder {
    /** Resistance in ohms of a good mated terminal with its crimp (2–6 mohm, common practice, no source). */
    static final double CONTACT_OHMS = 0.005;

    /** Resistance in ohms from a wire's end to the middle of a good splice (judgement). */
    static final double LEG_OHMS = 0.001;

    private final Circuit circuit;
    private final Layout layout;
    private final OperatingPoint op;
    private final Netlist net = new Netlist();

    private NetlistBuilder(Circuit circuit, Layout layout, OperatingPoint op) {
        this.circuit = circuit;
        this.layout = layout;
        this.op = op;
    }

    /**
     * What is other at a phase than in the network of another phase of the same operating point: only what the phases turn
     * on and off is looked at, since nothing else depends on them.
     *
     * @param net the network of the other phase
     */
    static Changes switched(
            Circuit circuit, OperatingPoint op, OperatingPoint.Phase other, OperatingPoint.Phase phase, Netlist net) {
        Set<String> ids = new HashSet<>(phase.on());
        ids.removeAll(other.on());
        other.on().stream().filter(id -> !phase.on().contains(id)).forEach(ids::add);
        Netlist there = net.onSameNodes();
        ControlUnitParts.addPins(there, circuit.controlUnit(), phase, ids);
        circuit.devices().values().stream()
                .filter(d -> ids.contains(d.id()))
                .forEach(d -> DeviceParts.add(there, d, op, phase));
        Changes out = Changes.none();
        for (Netlist.Element e : there.elements()) {
            int number = net.needElement(e.name());
            if (!e.equals(net.elements().get(number))) out.elements().put(number, e);
        }
        for (Part p : there.parts()) {
            int number = net.findPart(p.name()).orElseThrow();
            if (!p.equals(net.parts().get(number))) out.parts().put(number, p);
        }
        return out;
    }

    static Netlist build(Circuit circuit, Layout layout, OperatingPoint op, OperatingPoint.Phase phase) {
        NetlistBuilder b = new NetlistBuilder(circuit, layout, op);
        ControlUnitParts.add(b.net, circuit.controlUnit(), phase);
        b.net.endOfUnit();
        circuit.devices().values().forEach(d -> DeviceParts.add(b.net, d, op, phase));
        b.fuses();
        b.net.endOfActive();
        b.wires();
        b.inlineContacts();
        circuit.controlUnit().pins().keySet().stream().sorted().forEach(b::contact);
        circuit.devices()
                .values()
                .forEach(d -> d.terminals().values().stream().sorted().forEach(b::contact));
        return b.net;
    }

    private void wires() {
        for (Joints.Ground g : circuit.grounds().values())
            net.resistor(Names.ground(g.id()), g.id(), Names.CHASSIS, g.ohms());
        for (Wire w : circuit.wires().values()) {
            double ohms = Math.max(1e-4, layout.metres(w) * w.size().ohmsPerMetre(op.wireCelsius()));
            net.resistor(Names.wire(w.id()), end(w, true), end(w, false), ohms);
        }
    }

    private String end(Wire w, boolean atFrom) {
        String point = atFrom ? w.from() : w.to();
        if (!circuit.splices().containsKey(point)) return point;
        String end = Names.end(w.id(), atFrom);
        net.resistor(Names.leg(point, w.id()), end, point, LEG_OHMS);
        return end;
    }

    private void fuses() {
        for (Joints.Fuse f : circuit.fuses().values())
            net.add(new Netlist.Element(
                    Names.fuse(f.id()),
                    net.node(f.id() + "/in"),
                    net.node(f.id() + "/out"),
                    f.ohms(),
                    0,
                    f.amperes() * Joints.Fuse.OPENS_AT));
    }

    private void inlineContacts() {
        for (Connector c : circuit.connectors().values()) {
            Connector other = circuit.connectors().get(c.mates());
            if (other == null || c.id().compareTo(other.id()) > 0) continue;
            for (String cavity :
                    c.rows().stream().flatMap(java.util.List::stream).toList()) {
                String here = c.id() + "/" + cavity;
                String there = other.id() + "/" + cavity;
                if (!other.has(cavity)
                        || net.find(here).isEmpty() && net.find(there).isEmpty()) continue;
                net.resistor(Names.contact(here), here, there, CONTACT_OHMS);
                net.alias(Names.contact(there), Names.contact(here));
            }
        }
    }

    private void contact(String cavity) {
        net.resistor(Names.contact(cavity), cavity, Names.mating(cavity), CONTACT_OHMS);
    }
}
