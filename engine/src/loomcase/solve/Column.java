package loomcase.solve;

/** Voltages at every node, chassis first, for one ampere that enters at one node and leaves at another. Not thread-safe. */
final class Column {
    private final double[] ohms;
    private double most = -1;

    /** @param ohms by node; kept, not copied */
    Column(double[] ohms) {
        this.ohms = ohms;
    }

    double[] ohms() {
        return ohms;
    }

    /** The largest of the first {@code active} nodes, without sign; always asked for the same number of nodes. */
    double most(int active) {
        if (most < 0) {
            double found = 0;
            for (int i = 0; i < active; i++) found = Math.max(found, Math.abs(ohms[i]));
            most = found;
        }
        return most;
    }
}
