package loomcase.solve;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import loomcase.model.Names;

/**
 * The electrical network of a circuit at one instant: numbered nodes, linear elements and piecewise-linear parts.
 *
 * <p>Node 0 is the chassis. Every other node leaks to it through {@link #LEAK_OHMS}, the insulation, so that a floating
 * island has a defined voltage.
 */
public final class Netlist {
    /** Insulation resistance in ohms from every node to the chassis (judgement: clean, dry, aged harness). */
    static final double LEAK_OHMS = 1e9;

    /**
     * A linear element: a resistance with a voltage in series, {@code I(a→b) = (v[a] − v[b] − volts) / ohms}.
     *
     * @param name element name
     * @param a first node
     * @param b second node
     * @param ohms resistance
     * @param volts voltage in series
     * @param opensAbove current in amperes at which it opens for good, infinite unless it is a fuse
     */
    record Element(String name, int a, int b, double ohms, double volts, double opensAbove) {
        Stamp stamp() {
            return Stamp.branch(a, b, 1 / ohms, volts);
        }

        /** Current in amperes from a to b at the given node voltages, what the stamp gives. */
        double current(double[] nodeVolts) {
            double siemens = 1 / ohms;
            return siemens * (nodeVolts[a] - nodeVolts[b]) - siemens * volts;
        }

        /** True when it opens for good at these voltages. */
        boolean opens(NodeVolts nodeVolts) {
            return Math.abs((nodeVolts.at(a) - nodeVolts.at(b) - volts) / ohms) > opensAbove;
        }

        /** The voltage across it, and the range in which it holds. */
        Taps.Tap tap(int number) {
            double most = opensAbove * ohms;
            return new Taps.Tap(Part.Probe.across(a, b), volts - most, volts + most, Taps.NONE, number);
        }

        Element withVolts(double other) {
            return new Element(name, a, b, ohms, other, opensAbove);
        }

        Element withOhms(double other) {
            return new Element(name, a, b, other, volts, opensAbove);
        }
    }

    private final Map<String, Integer> nodes;
    private final List<String> nodeNames;
    private final Map<String, Integer> elementIndex = new LinkedHashMap<>();
    private final List<Element> elements = new ArrayList<>();
    private final List<Integer> fuses = new ArrayList<>();
    private final Map<String, Integer> partIndex = new LinkedHashMap<>();
    private final List<Part> parts = new ArrayList<>();
    private final Map<String, String> aliases = new LinkedHashMap<>();

    private int unit;
    private int active;

    Netlist() {
        this(new LinkedHashMap<>(), new ArrayList<>());
        node(Names.CHASSIS);
    }

    private Netlist(Map<String, Integer> nodes, List<String> nodeNames) {
        this.nodes = nodes;
        this.nodeNames = nodeNames;
    }

    /** An empty network on the nodes of this one; it makes no others. */
    Netlist onSameNodes() {
        return new Netlist(Collections.unmodifiableMap(nodes), Collections.unmodifiableList(nodeNames));
    }

    /** A copy that can be changed without touching this one. */
    Netlist copy() {
        Netlist c = new Netlist();
        nodeNames.forEach(c::node);
        elements.forEach(c::add);
        parts.forEach(c::add);
        c.aliases.putAll(aliases);
        c.unit = unit;
        c.active = active;
        return c;
    }

    /** Says that all nodes of the control unit have been made. */
    void endOfUnit() {
        unit = size();
    }

    /** Nodes below this number are the chassis, control-unit pins and points inside the unit; 0 when nobody has said. */
    int unit() {
        return unit;
    }

    /** Says that all nodes that parts, fuses and control-unit pins touch have been made. */
    void endOfActive() {
        active = size();
    }

    /** Nodes below this number are all that parts, fuses and control-unit pins touch; 0 when nobody has said. */
    int active() {
        return active;
    }

    /** The number of a point, made on first use. */
    int node(String point) {
        Integer known = nodes.get(point);
        if (known != null) return known;
        nodes.put(point, nodeNames.size());
        nodeNames.add(point);
        return nodeNames.size() - 1;
    }

    void add(Element e) {
        if (elementIndex.put(e.name(), elements.size()) != null)
            throw new IllegalArgumentException("element " + e.name() + " exists twice");
        if (Double.isFinite(e.opensAbove())) fuses.add(elements.size());
        elements.add(e);
    }

    void resistor(String name, String a, String b, double ohms) {
        source(name, a, b, ohms, 0);
    }

    void source(String name, String a, String b, double ohms, double volts) {
        add(new Element(name, node(a), node(b), ohms, volts, Double.POSITIVE_INFINITY));
    }

    void add(Part p) {
        if (partIndex.put(p.name(), parts.size()) != null)
            throw new IllegalArgumentException("part " + p.name() + " exists twice");
        parts.add(p);
    }

    /** Lets an element be found under a second name. */
    void alias(String other, String element) {
        aliases.put(other, element);
    }

    void replace(int index, Element e) {
        elements.set(index, e);
    }

    /** An element gets another name, so that no edit of the old one finds it. */
    void rename(int index, String name) {
        Element e = elements.get(index);
        elementIndex.remove(e.name());
        elementIndex.put(name, index);
        elements.set(index, new Element(name, e.a(), e.b(), e.ohms(), e.volts(), e.opensAbove()));
    }

    void replace(int index, Part p) {
        parts.set(index, p);
    }

    /** Numbers of the elements that open when overloaded. */
    List<Integer> fuses() {
        return fuses;
    }

    boolean isFuse(int element) {
        return Double.isFinite(elements.get(element).opensAbove);
    }

    List<Element> elements() {
        return elements;
    }

    List<Part> parts() {
        return parts;
    }

    /** How many nodes, chassis included. */
    public int size() {
        return nodeNames.size();
    }

    /** Node names by number. */
    public List<String> nodeNames() {
        return Collections.unmodifiableList(nodeNames);
    }

    /** The node of a point, if the network has it. */
    public OptionalInt find(String point) {
        Integer node = nodes.get(point);
        return node == null ? OptionalInt.empty() : OptionalInt.of(node);
    }

    /** The node of a point that must exist. */
    int need(String point) {
        return find(point).orElseThrow(() -> new IllegalArgumentException("the network has no point " + point));
    }

    OptionalInt findElement(String name) {
        Integer index = elementIndex.get(aliases.getOrDefault(name, name));
        return index == null ? OptionalInt.empty() : OptionalInt.of(index);
    }

    int needElement(String name) {
        return findElement(name).orElseThrow(() -> new IllegalArgumentException("the network has no element " + name));
    }

    OptionalInt findPart(String name) {
        Integer index = partIndex.get(name);
        return index == null ? OptionalInt.empty() : OptionalInt.of(index);
    }

    /** True when an element of this name exists. */
    public boolean hasElement(String name) {
        return findElement(name).isPresent();
    }
}
