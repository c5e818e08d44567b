package loomcase.solve;

/**
 * A current from node {@code from} to node {@code to} that follows a voltage: {@code I = g · (v[plus] − v[minus]) + i}.
 *
 * <p>A resistor is a stamp whose controlling nodes are its own ends. A controlled source has others.
 *
 * @param from node that the current leaves
 * @param to node that it enters
 * @param plus controlling node, counted positive
 * @param minus controlling node, counted negative
 * @param siemens g
 * @param amperes i
 */
record Stamp(int from, int to, int plus, int minus, double siemens, double amperes) {

    /** A conductance between two nodes with a source in series: {@code I = g · (v[a] − v[b] − volts)}. */
    static Stamp branch(int a, int b, double siemens, double volts) {
        return new Stamp(a, b, a, b, siemens, -siemens * volts);
    }

    /** The same between the same nodes with more added. */
    Stamp with(double moreSiemens, double moreAmperes) {
        return new Stamp(from, to, plus, minus, siemens + moreSiemens, amperes + moreAmperes);
    }

    /** The current in amperes at the given node voltages. */
    double current(double[] volts) {
        return siemens * (volts[plus] - volts[minus]) + amperes;
    }

    /** The same, looking only at the controlling nodes. */
    double current(NodeVolts volts) {
        return siemens * (volts.at(plus) - volts.at(minus)) + amperes;
    }
}
