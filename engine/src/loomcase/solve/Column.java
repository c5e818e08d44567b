package loomcase.solve;

import java.util.Optional;

/**
 * Voltages at every node, chassis first, for one ampere that enters at one node and leaves at another. That of two nodes may
 * be the difference of their own, which then is taken where somebody looks, not copied: there are many pairs of nodes.
 */
final class Column {
    private static final double[] NONE = {};

    private final double[] ohms;
    private final double[] less;
    private volatile Optional<Most> most = Optional.empty();

    /**
     * The largest voltages of a column, without sign.
     *
     * @param active at any active node
     * @param inUnit at a node of the control unit
     * @param byBlock by block of parts, across a probe or a gate, see {@link PartTable#most}
     */
    record Most(double active, double inUnit, double[] byBlock) {}

    /** @param ohms by node; kept, not copied */
    Column(double[] ohms) {
        this(ohms, NONE);
    }

    /** {@code A⁻¹(e[from] − e[to])}, solved for; node numbers, 0 the chassis. */
    static Column solved(SparseLu factors, int from, int to) {
        return new Column(factors.difference(from - 1, to - 1, 1));
    }

    private Column(double[] ohms, double[] less) {
        this.ohms = ohms;
        this.less = less;
    }

    /** This with another one, itself no difference, taken from it; this is no difference either. */
    Column minus(Column other) {
        return new Column(ohms, other.ohms);
    }

    boolean isDifference() {
        return less != NONE;
    }

    double at(int node) {
        return less == NONE ? ohms[node] : ohms[node] - less[node];
    }

    /** The voltage between the controlling nodes of a stamp. */
    double across(Stamp s) {
        return at(s.plus()) - at(s.minus());
    }

    /** Adds this times a number to as many voltages as there are. */
    void addTo(double[] volts, double times) {
        if (less == NONE) for (int i = 0; i < volts.length; i++) volts[i] += times * ohms[i];
        else for (int i = 0; i < volts.length; i++) volts[i] += times * (ohms[i] - less[i]);
    }

    /** The largest of its voltages; always asked of one network. */
    Most most(Netlist net, PartTable table) {
        Optional<Most> known = most;
        if (known.isPresent()) return known.get();
        double inUnit = most(0, net.unit());
        Most found = new Most(Math.max(inUnit, most(net.unit(), net.active())), inUnit, table.most(this));
        most = Optional.of(found);
        return found;
    }

    private double most(int from, int to) {
        double found = 0;
        for (int i = from; i < to; i++) found = Math.max(found, Math.abs(at(i)));
        return found;
    }
}
