package loomcase.solve;

/** Voltages at every node, chassis first, for one ampere that enters at one node and leaves at another. */
final class Column {
    private final double[] ohms;
    /** Written last, so that whoever reads it sees the other too. */
    private volatile double most = -1;

    private double mostInUnit;

    /** @param ohms by node; kept, not copied */
    Column(double[] ohms) {
        this.ohms = ohms;
    }

    double[] ohms() {
        return ohms;
    }

    /** The largest at an active node of the network, without sign; always asked of one network. */
    double most(Netlist net) {
        look(net);
        return most;
    }

    /** The largest at a node of the control unit. */
    double mostInUnit(Netlist net) {
        look(net);
        return mostInUnit;
    }

    private void look(Netlist net) {
        if (most >= 0) return;
        mostInUnit = most(0, net.unit());
        most = Math.max(mostInUnit, most(net.unit(), net.active()));
    }

    private double most(int from, int to) {
        double found = 0;
        for (int i = from; i < to; i++) found = Math.max(found, Math.abs(ohms[i]));
        return found;
    }
}
