package loomcase.solve;

import java.util.List;

/**
 * The linear elements of a netlist in flat arrays, for finding what Kirchhoff's current law misses: the innermost loop of
 * iterative refinement. The netlist must not change afterwards.
 */
final class FlatElements {
    private final int[] from;
    private final int[] to;
    private final double[] siemens;
    private final double[] amperes;

    FlatElements(Netlist net) {
        int n = net.elements().size();
        this.from = new int[n];
        this.to = new int[n];
        this.siemens = new double[n];
        this.amperes = new double[n];
        for (int i = 0; i < n; i++) {
            Stamp s = net.elements().get(i).stamp();
            from[i] = s.from();
            to[i] = s.to();
            siemens[i] = s.siemens();
            amperes[i] = s.amperes();
        }
    }

    /**
     * Current in amperes that Kirchhoff's law finds missing at every node, chassis first.
     *
     * <p>Each current is subtracted at one end and added at the other as the same number, so that within an island the
     * rounding cancels exactly.
     *
     * @param changes what differs from the netlist these elements are of; never between which nodes they are
     */
    double[] residual(Changes changes, List<Part> parts, int[] regions, double[] volts) {
        double[] siemens = this.siemens.clone();
        double[] amperes = this.amperes.clone();
        changes.elements().forEach((i, e) -> {
            Stamp s = e.stamp();
            siemens[i] = s.siemens();
            amperes[i] = s.amperes();
        });
        double[] r = new double[volts.length];
        for (int i = 1; i < volts.length; i++) r[i] = -volts[i] / Netlist.LEAK_OHMS;
        for (int i = 0; i < from.length; i++) {
            int a = from[i];
            int b = to[i];
            double current = siemens[i] * (volts[a] - volts[b]) + amperes[i];
            r[a] -= current;
            r[b] += current;
        }
        for (Netlist.Element e : changes.added()) flow(e.stamp(), volts, r);
        for (int p = 0; p < regions.length; p++) {
            List<Stamp> stamps = parts.get(p).stamps(regions[p]);
            for (int s = 0; s < stamps.size(); s++) flow(stamps.get(s), volts, r);
        }
        return r;
    }

    private static void flow(Stamp s, double[] volts, double[] r) {
        double current = s.current(volts);
        r[s.from()] -= current;
        r[s.to()] += current;
    }
}
