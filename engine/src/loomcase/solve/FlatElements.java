package loomcase.solve;

import java.util.Arrays;
import java.util.List;
import java.util.Map;

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
     * @param missing as long as {@code volts}; overwritten by the currents
     */
    void residual(Changes changes, List<Part> parts, int[] regions, double[] volts, double[] missing) {
        missing[0] = 0;
        for (int i = 1; i < volts.length; i++) missing[i] = -volts[i] / Netlist.LEAK_OHMS;
        int next = 0;
        for (int changed : ascending(changes.elements())) {
            flow(next, changed, volts, missing);
            flow(changes.elements().get(changed).stamp(), volts, missing);
            next = changed + 1;
        }
        flow(next, from.length, volts, missing);
        for (Netlist.Element e : changes.added()) flow(e.stamp(), volts, missing);
        for (int p = 0; p < regions.length; p++) {
            List<Stamp> stamps = parts.get(p).stamps(regions[p]);
            for (int s = 0; s < stamps.size(); s++) flow(stamps.get(s), volts, missing);
        }
    }

    private static int[] ascending(Map<Integer, Netlist.Element> elements) {
        int[] out = new int[elements.size()];
        int count = 0;
        for (int i : elements.keySet()) out[count++] = i;
        Arrays.sort(out);
        return out;
    }

    /** Currents of the elements from one number up to before another. */
    private void flow(int first, int end, double[] volts, double[] missing) {
        for (int i = first; i < end; i++) {
            int a = from[i];
            int b = to[i];
            double current = siemens[i] * (volts[a] - volts[b]) + amperes[i];
            missing[a] -= current;
            missing[b] += current;
        }
    }

    private static void flow(Stamp s, double[] volts, double[] missing) {
        double current = s.current(volts);
        missing[s.from()] -= current;
        missing[s.to()] += current;
    }
}
