package loomcase.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;
import loomcase.j1939.Code;
import loomcase.model.Watch;
import loomcase.policy.FmiReading;
import loomcase.policy.Mask;
import loomcase.policy.PolicyOutcome;

/**
 * Every code that may be shown, and how watches lead to them: which FMI a crossed threshold is shown with, and which code
 * hides which.
 *
 * <p>For watches w of one SPN with condition probability p(w), the probability that code c is shown is {@code q(c) = 1 −
 * Π (1 − p(w) · weight(w → c) · (1 − missed))}, then for every mask from b to c of strength s {@code q(c) ← q(c) · (1 − s
 * · q(b))} with q(b) before masking and without the watches that show either b or c: one crossed limit is shown once, so
 * its own other FMI cannot hide it.
 */
public final class CodeTable {
    private static final int[] NO_WATCHES = {};

    private final List<Code> codes;
    private final int[][] shownBy;
    private final double[][] weight;
    private final int[] maskBy;
    private final int[] maskHides;
    private final double[] maskStrength;

    /** By mask, watches that show both its codes. */
    private final int[][] maskOwn;

    private final double missed;
    private final int[][] showers;
    private final double[][] showerWeight;
    private final int[][] masksOf;
    private final int[][] hiddenBy;

    /**
     * @param watches every watch of the circuit
     * @param policy what the rules conclude
     * @param seen codes seen that no watch may set; they join the table
     * @param missed probability that a code whose condition holds does not appear
     */
    public CodeTable(List<Watch> watches, PolicyOutcome policy, Collection<Code> seen, double missed) {
        this.missed = missed;
        TreeSet<Code> all = new TreeSet<>(seen);
        List<List<FmiReading>> readings = new ArrayList<>();
        for (Watch w : watches) {
            List<FmiReading> here = policy.readings().stream()
                    .filter(r -> r.circuitKind().equals(w.circuitKind()) && r.conditionFmi() == w.fmi())
                    .toList();
            readings.add(here);
            if (here.isEmpty()) all.add(new Code(w.spn(), w.fmi()));
            here.forEach(r -> all.add(new Code(w.spn(), r.shownFmi())));
        }
        this.codes = List.copyOf(all);
        this.shownBy = new int[watches.size()][];
        this.weight = new double[watches.size()][];
        for (int w = 0; w < watches.size(); w++) {
            int spn = watches.get(w).spn();
            List<FmiReading> here = readings.get(w);
            if (here.isEmpty()) {
                shownBy[w] = new int[] {index(new Code(spn, watches.get(w).fmi()))};
                weight[w] = new double[] {1};
                continue;
            }
            shownBy[w] = here.stream()
                    .mapToInt(r -> index(new Code(spn, r.shownFmi())))
                    .toArray();
            weight[w] = here.stream().mapToDouble(FmiReading::weight).toArray();
        }
        int[] by = new int[policy.masks().size()];
        int[] hides = new int[by.length];
        double[] strength = new double[by.length];
        int masks = 0;
        for (Mask m : policy.masks()) {
            by[masks] = index(new Code(m.bySpn(), m.byFmi()));
            hides[masks] = index(new Code(m.hidesSpn(), m.hidesFmi()));
            strength[masks] = m.strength();
            if (by[masks] >= 0 && hides[masks] >= 0) masks++;
        }
        this.maskBy = Arrays.copyOf(by, masks);
        this.maskHides = Arrays.copyOf(hides, masks);
        this.maskStrength = Arrays.copyOf(strength, masks);
        this.masksOf = byCode(maskHides, IntStream.range(0, maskHides.length).toArray());
        this.hiddenBy = byCode(maskBy, maskHides);
        int links = Arrays.stream(shownBy).mapToInt(s -> s.length).sum();
        int[] code = new int[links];
        int[] watch = new int[links];
        double[] share = new double[links];
        int at = 0;
        for (int w = 0; w < shownBy.length; w++)
            for (int k = 0; k < shownBy[w].length; k++) {
                code[at] = shownBy[w][k];
                watch[at] = w;
                share[at++] = weight[w][k];
            }
        this.showers = byCode(code, watch);
        int[][] links1 = byCode(code, IntStream.range(0, links).toArray());
        this.showerWeight = Arrays.stream(links1)
                .map(l -> Arrays.stream(l).mapToDouble(i -> share[i]).toArray())
                .toArray(double[][]::new);
        this.maskOwn = new int[masks][];
        for (int m = 0; m < masks; m++) maskOwn[m] = common(showers[maskBy[m]], showers[maskHides[m]]);
    }

    private static int[] common(int[] a, int[] b) {
        int[] out = NO_WATCHES;
        for (int each : a)
            if (contains(b, each)) {
                out = Arrays.copyOf(out, out.length + 1);
                out[out.length - 1] = each;
            }
        return out;
    }

    private static boolean contains(int[] all, int one) {
        for (int each : all) if (each == one) return true;
        return false;
    }

    /** The values of all pairs of each code, in order. */
    private int[][] byCode(int[] code, int[] value) {
        int[] size = new int[codes.size()];
        for (int c : code) size[c]++;
        int[][] out = new int[size.length][];
        for (int c = 0; c < size.length; c++) out[c] = new int[size[c]];
        Arrays.fill(size, 0);
        for (int i = 0; i < code.length; i++) out[code[i]][size[code[i]]++] = value[i];
        return out;
    }

    /** Codes by number, in order. */
    public List<Code> codes() {
        return codes;
    }

    /** Number of a code, or a negative number. */
    public int index(Code code) {
        return java.util.Collections.binarySearch(codes, code);
    }

    /** Codes that hide another, by number, with their strength: {@code hiders(c)[k] = (hider, strength)}. */
    public List<Hider> hiders(int code) {
        List<Hider> out = new ArrayList<>();
        for (int m = 0; m < maskBy.length; m++)
            if (maskHides[m] == code) out.add(new Hider(codes.get(maskBy[m]), maskStrength[m]));
        return out;
    }

    /**
     * A code that may keep another back.
     *
     * @param code the hiding code
     * @param strength probability that it does
     */
    public record Hider(Code code, double strength) {}

    /** Codes that a watch may show. */
    int[] shownBy(int watch) {
        return shownBy[watch];
    }

    /** Codes that a code may hide. */
    int[] hiddenBy(int code) {
        return hiddenBy[code];
    }

    /** Every watch on which the probabilities of some codes depend: those that show them, or a code that may hide them. */
    BitSet behind(Collection<Code> some) {
        BitSet out = new BitSet();
        for (Code each : some) {
            int c = index(each);
            if (c < 0) continue;
            for (int w : showers[c]) out.set(w);
            for (int mask : masksOf[c]) for (int w : showers[maskBy[mask]]) out.set(w);
        }
        return out;
    }

    /** Numbers of the masks that hide a code, in order. */
    int[] masksOf(int code) {
        return masksOf[code];
    }

    double strength(int mask) {
        return maskStrength[mask];
    }

    /** The code that a mask hides others by. */
    int hider(int mask) {
        return maskBy[mask];
    }

    /** True when some watch shows either of a mask's codes, so that {@link #hiding} must be asked. */
    boolean hasOwn(int mask) {
        return maskOwn[mask].length > 0;
    }

    /** Probability that a mask's code is there to hide the other, by mask. */
    double[] hiding(double[] condition) {
        double[] out = new double[maskBy.length];
        for (int m = 0; m < out.length; m++) out[m] = hiding(m, condition);
        return out;
    }

    /** Probability that a mask's code is there to hide the other. */
    double hiding(int mask, double[] condition) {
        return raw(maskBy[mask], condition, maskOwn[mask]);
    }

    /**
     * Probability of each code being shown.
     *
     * @param condition probability of each watch's condition
     * @return probability by code number
     */
    double[] shown(double[] condition) {
        double[] q = raw(condition);
        double[] masked = q.clone();
        for (int m = 0; m < maskBy.length; m++)
            masked[maskHides[m]] *= 1 - maskStrength[m] * (hasOwn(m) ? hiding(m, condition) : q[maskBy[m]]);
        return masked;
    }

    /** The same before masking. */
    double[] raw(double[] condition) {
        double[] q = new double[codes.size()];
        for (int c = 0; c < q.length; c++) q[c] = raw(c, condition);
        return q;
    }

    /** Probability of one code before masking. */
    double raw(int code, double[] condition) {
        return raw(code, condition, NO_WATCHES);
    }

    private double raw(int code, double[] condition, int... without) {
        double none = 1;
        int[] by = showers[code];
        for (int k = 0; k < by.length; k++) {
            double p = condition[by[k]];
            if (p != 0 && !contains(without, by[k])) none *= 1 - p * showerWeight[code][k] * (1 - missed);
        }
        return 1 - none;
    }
}
