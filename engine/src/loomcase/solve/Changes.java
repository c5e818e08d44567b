package loomcase.solve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Names;

/**
 * What a list of edits does to a netlist: elements that get another resistance, elements that are new, parts replaced.
 *
 * <p>An edit that names a point or element the network does not have (an unwired pin, say) changes nothing there.
 *
 * @param elements changed elements by number
 * @param added new elements between existing nodes
 * @param parts replaced parts by number
 */
record Changes(Map<Integer, Netlist.Element> elements, List<Netlist.Element> added, Map<Integer, Part> parts) {

    static Changes of(Netlist net, Map<String, Device> devices, List<Edit> edits) {
        return of(net, devices, edits, Set.of());
    }

    /**
     * @param held numbers of elements whose resistance no edit may change, such as the contacts of a plug taken apart
     */
    static Changes of(Netlist net, Map<String, Device> devices, List<Edit> edits, Set<Integer> held) {
        return of(none(), net, devices, edits, held);
    }

    /**
     * @param before changes made before the edits
     * @param held numbers of elements whose resistance no edit may change
     */
    static Changes of(Changes before, Netlist net, Map<String, Device> devices, List<Edit> edits, Set<Integer> held) {
        Changes c = new Changes(
                new LinkedHashMap<>(before.elements), new ArrayList<>(before.added), new LinkedHashMap<>(before.parts));
        for (Edit edit : edits) c.apply(net, devices, edit);
        c.elements.keySet().removeAll(held);
        return c;
    }

    private void apply(Netlist net, Map<String, Device> devices, Edit edit) {
        if (edit instanceof Edit.Series s) series(net, s);
        else if (edit instanceof Edit.Bridge b) between(net, "bridge", b.pointA(), b.pointB(), b.ohms(), 0);
        else if (edit instanceof Edit.Source s) between(net, "source", s.pointA(), s.pointB(), s.ohms(), s.volts());
        else if (edit instanceof Edit.Value v) value(net, devices.get(v.device()), v);
        else if (edit instanceof Edit.Dead d) dead(net, d.what());
        else throw new IllegalStateException("unknown edit " + edit);
    }

    private void series(Netlist net, Edit.Series s) {
        OptionalInt index = net.findElement(s.element());
        if (index.isEmpty()) return;
        int i = index.getAsInt();
        Netlist.Element before = elements.getOrDefault(i, net.elements().get(i));
        elements.put(i, before.withOhms(Math.max(s.ohms(), 1e-6)));
    }

    private void between(Netlist net, String kind, String pointA, String pointB, double ohms, double volts) {
        OptionalInt from = net.find(pointA);
        OptionalInt to = net.find(pointB);
        if (from.isEmpty() || to.isEmpty() || from.getAsInt() == to.getAsInt()) return;
        String name = kind + ":" + (net.elements().size() + added.size()) + ":" + pointA + "-" + pointB;
        added.add(new Netlist.Element(name, from.getAsInt(), to.getAsInt(), ohms, volts, Double.POSITIVE_INFINITY));
    }

    private void value(Netlist net, Device device, Edit.Value v) {
        if (device == null) throw new IllegalArgumentException("no device " + v.device());
        Device.Nature nature = device.nature();
        if (v.quantity() == Edit.Quantity.FRACTION) {
            Device.Ratiometric r = nature instanceof Device.MotorWithPosition m
                    ? m.position()
                    : nature instanceof Device.Ratiometric plain ? plain : null;
            OptionalInt part = net.findPart(Names.device(device.id(), "output"));
            if (r == null || part.isEmpty()) return;
            parts.put(
                    part.getAsInt(),
                    DeviceParts.output(
                            Names.device(device.id(), "output"),
                            net.need(terminal(device, "supply")),
                            net.need(terminal(device, "return")),
                            net.need(terminal(device, "signal")),
                            r,
                            Math.max(0, Math.min(1, v.value()))));
            return;
        }
        if (nature instanceof Device.Battery) {
            supply(net, device, v);
            return;
        }
        String element = Names.device(device.id(), mainElement(nature));
        OptionalInt index = net.findElement(element);
        if (index.isEmpty()) return;
        double before = net.elements().get(index.getAsInt()).ohms();
        double ohms = v.quantity() == Edit.Quantity.OHMS_FACTOR
                ? before * v.value()
                : v.quantity() == Edit.Quantity.CELSIUS && nature instanceof Device.Ntc n
                        ? n.ohms(v.value())
                        : v.value();
        series(net, new Edit.Series(element, ohms));
    }

    private void supply(Netlist net, Device battery, Edit.Value v) {
        List<String> lowered = v.quantity() == Edit.Quantity.VOLTS
                ? DeviceParts.SUPPLIES
                : v.quantity() == Edit.Quantity.RESTING_VOLTS ? List.of(DeviceParts.CELL) : List.of();
        for (String supply : lowered) {
            OptionalInt index = net.findElement(Names.device(battery.id(), supply));
            if (index.isEmpty()) continue;
            Netlist.Element e = element(net, index.getAsInt());
            elements.put(index.getAsInt(), e.withVolts(Math.min(e.volts(), v.value())));
        }
    }

    private static String terminal(Device device, String role) {
        return Names.mating(device.terminals().get(role));
    }

    private static String mainElement(Device.Nature nature) {
        if (nature instanceof Device.MotorWithPosition) return "motor";
        if (nature instanceof Device.VariableReluctance || nature instanceof Device.Relay) return "coil";
        if (nature instanceof Device.Node || nature instanceof Device.Hall) return "supply";
        return "element";
    }

    private void dead(Netlist net, String what) {
        for (String name : List.of(
                ControlUnitParts.rail(what),
                Names.device(what, "output"),
                Names.device(what, "transceiver"),
                Names.device(what, "contact"))) {
            OptionalInt part = net.findPart(name);
            if (part.isPresent())
                parts.put(part.getAsInt(), net.parts().get(part.getAsInt()).dead());
        }
        OptionalInt coil = net.findElement(Names.device(what, "coil"));
        if (coil.isPresent()) {
            Netlist.Element e = element(net, coil.getAsInt());
            elements.put(coil.getAsInt(), new Netlist.Element(e.name(), e.a(), e.b(), e.ohms(), 0, e.opensAbove()));
        }
    }

    static Changes none() {
        return new Changes(new LinkedHashMap<>(), new ArrayList<>(), new LinkedHashMap<>());
    }

    /** An element of the healthy netlist as it is after the changes. */
    Netlist.Element element(Netlist healthy, int index) {
        return elements.getOrDefault(index, healthy.elements().get(index));
    }

    /** A part of the healthy netlist as it is after the changes. */
    Part part(Netlist healthy, int index) {
        return parts.isEmpty()
                ? healthy.parts().get(index)
                : parts.getOrDefault(index, healthy.parts().get(index));
    }

    /** The parts of the healthy netlist as they are after the changes. */
    List<Part> partsOf(Netlist healthy) {
        if (parts.isEmpty()) return healthy.parts();
        List<Part> out = new ArrayList<>(healthy.parts());
        parts.forEach(out::set);
        return out;
    }

    /** The netlist with these changes made for good. */
    Netlist applyTo(Netlist net) {
        Netlist out = net.copy();
        elements.forEach(out::replace);
        added.forEach(out::add);
        parts.forEach(out::replace);
        return out;
    }
}
