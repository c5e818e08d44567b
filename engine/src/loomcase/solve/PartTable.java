package loomcase.solve;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;

/**
 * The parts of a network in flat arrays, for one quick question asked of every solution: is every part still in the
 * region it has on a healthy engine, or in the one given?
 */
final class PartTable {
    /** Parts that follow each other in the network are mostly near each other in the harness; so many are a block. */
    private static final int BLOCK = 8;

    private final List<Part> parts;
    private final int[] base;
    private final int[] gatePlus;
    private final int[] gateMinus;
    private final double[] gateLeast;
    private final double[] gateMost;
    private final int[] p;
    private final int[] n;
    private final int[] p2;
    private final int[] n2;
    private final double[] factor;
    private final double[] least;
    private final double[] most;

    PartTable(List<Part> parts, int[] baseRegions) {
        this(parts, baseRegions, p -> true);
    }

    private PartTable(List<Part> parts, int[] baseRegions, IntPredicate wanted) {
        int size = parts.size();
        this.parts = parts;
        this.base = baseRegions;
        this.gatePlus = new int[size];
        this.gateMinus = new int[size];
        this.gateLeast = new double[size];
        this.gateMost = new double[size];
        this.p = new int[size];
        this.n = new int[size];
        this.p2 = new int[size];
        this.n2 = new int[size];
        this.factor = new double[size];
        this.least = new double[size];
        this.most = new double[size];
        for (int i = 0; i < size; i++) if (wanted.test(i)) fill(i, parts.get(i));
    }

    private void fill(int i, Part part) {
        boolean off = base[i] == Part.OFF;
        gateLeast[i] = Double.NEGATIVE_INFINITY;
        gateMost[i] = Double.POSITIVE_INFINITY;
        if (part.gate().isPresent()) {
            Part.Gate g = part.gate().get();
            gatePlus[i] = g.plus();
            gateMinus[i] = g.minus();
            if (off) gateMost[i] = g.volts() + Moves.SLACK;
            else gateLeast[i] = g.volts() - Moves.SLACK;
        }
        p[i] = part.probe().p();
        n[i] = part.probe().n();
        p2[i] = part.probe().p2();
        n2[i] = part.probe().n2();
        factor[i] = part.probe().factor();
        double[] breaks = part.breaks();
        least[i] = off || base[i] == 0 ? Double.NEGATIVE_INFINITY : breaks[base[i] - 1] - Moves.SLACK;
        most[i] = off || base[i] == breaks.length ? Double.POSITIVE_INFINITY : breaks[base[i]] + Moves.SLACK;
    }

    /** True when every part is in its region at these voltages. */
    boolean agrees(List<Part> now, int[] regions, double[] volts) {
        for (int i = 0; i < base.length; i++) {
            if (regions[i] != base[i] || now.get(i) != parts.get(i)) {
                if (now.get(i).violation(regions[i], volts) > Moves.SLACK) return false;
                continue;
            }
            double gate = gate(i, volts);
            if (gate < gateLeast[i] || gate > gateMost[i]) return false;
            double x = probe(i, volts);
            if (x < least[i] || x > most[i]) return false;
        }
        return true;
    }

    /** What parts choose their regions by, and the ranges in which they stay in these; a part with a gate has two. */
    static List<Taps.Tap> taps(List<Part> parts, int[] regions, IntPredicate wanted) {
        PartTable table = new PartTable(parts, regions, wanted);
        List<Taps.Tap> out = new ArrayList<>();
        for (int i = 0; i < regions.length; i++) {
            if (!wanted.test(i)) continue;
            out.add(new Taps.Tap(parts.get(i).probe(), table.least[i], table.most[i], i, Taps.NONE));
            if (parts.get(i).gate().isPresent())
                out.add(new Taps.Tap(
                        Part.Probe.across(table.gatePlus[i], table.gateMinus[i]),
                        table.gateLeast[i],
                        table.gateMost[i],
                        i,
                        Taps.NONE));
        }
        return out;
    }

    /** By part: volts by which probe or gate differ between two solutions, the larger. */
    double[] moves(double[] volts, double[] others) {
        double[] out = new double[base.length];
        for (int i = 0; i < base.length; i++)
            out[i] = Math.max(Math.abs(gate(i, volts) - gate(i, others)), Math.abs(probe(i, volts) - probe(i, others)));
        return out;
    }

    /** By part: volts to the nearest border of the region that it has. */
    double[] room(double[] volts) {
        double[] out = new double[base.length];
        for (int i = 0; i < base.length; i++) {
            double gate = gate(i, volts);
            double x = probe(i, volts);
            out[i] = Math.min(Math.min(gate - gateLeast[i], gateMost[i] - gate), Math.min(x - least[i], most[i] - x));
        }
        return out;
    }

    /** How many blocks of parts there are. */
    int blocks() {
        return (base.length + BLOCK - 1) / BLOCK;
    }

    static int block(int part) {
        return part / BLOCK;
    }

    /** By block of parts: the largest voltage of a column across a probe or a gate, without sign. */
    double[] most(Column column) {
        double[] out = new double[blocks()];
        for (int i = 0; i < base.length; i++) {
            double gate = column.at(gatePlus[i]) - column.at(gateMinus[i]);
            double probe = column.at(p[i]) - column.at(n[i]);
            if (factor[i] != 0) probe -= factor[i] * (column.at(p2[i]) - column.at(n2[i]));
            out[block(i)] = Math.max(out[block(i)], Math.max(Math.abs(gate), Math.abs(probe)));
        }
        return out;
    }

    private double gate(int i, double[] volts) {
        return volts[gatePlus[i]] - volts[gateMinus[i]];
    }

    private double probe(int i, double[] volts) {
        return volts[p[i]] - volts[n[i]] - factor[i] * (volts[p2[i]] - volts[n2[i]]);
    }
}
