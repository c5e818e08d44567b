package loomcase.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.stream.IntStream;
import loomcase.model.Edit;

/**
 * Pairs of many faults, known phase by phase: the most that a pair can fit what was observed, given the phases looked at so
 * far.
 *
 * <p>A watch whose phases have been looked at has its probability under both faults; of any other watch nothing is assumed,
 * its probability lies between 0 and 1. In a phase not looked at the control unit may be silent. From these limits follow
 * limits of each code's probability, for {@link CodeTable}'s formula only rises with the watches that show a code and only
 * falls with those that hide it. A likelihood linear in that probability is largest at one of the limits. Codes that no
 * watch looked at so far touches count with the most that any probability gives them, until every phase has been looked at;
 * then the limits meet, and the fit is that of both faults together.
 *
 * <p>Phases are looked at on all cores. Not thread-safe itself.
 */
public final class PairTable {
    /** A reading that stands for the sum of what two faults do. */
    static final double[] SUM = {};

    /** How well a probability fits what was observed of a code, natural logarithm. */
    public interface Fit {
        /** Of a code by number; the likelihood must be linear in q, or constant. */
        double log(int code, double q);
    }

    /** Two faults, by number; the edits of the first come first. */
    public static final class Pair {
        private final int a;
        private final int b;
        private final double[][] readings;

        private Pair(int a, int b, int phases) {
            this.a = a;
            this.b = b;
            this.readings = new double[phases][];
        }

        public int a() {
            return a;
        }

        public int b() {
            return b;
        }
    }

    /** An operating point while pairs are judged. */
    private static final class Point {
        private final PointPlan plan;
        private final int[] phases;
        private final double[] usual;
        private final BitSet unknown = new BitSet();
        private double[] least;
        private double[] most;
        private boolean complete;

        Point(PointPlan plan, int... phases) {
            this.plan = plan;
            this.phases = phases;
            this.usual = plan.healthyConditions();
        }
    }

    private final CodeTable table;
    private final Fit fit;
    private final int[] weighed;
    private final List<Point> points = new ArrayList<>();
    private final List<PairPhase> phases = new ArrayList<>();
    private final boolean[] looked;
    private final double[] best;
    private final double bestOfAll;
    private final int[] touchedIn;
    private int turn;
    private boolean complete;

    PairTable(List<PointPlan> plans, CodeTable table, List<List<Edit>> faults, Fit fit, int... weighed) {
        this.table = table;
        this.fit = fit;
        this.weighed = weighed.clone();
        for (PointPlan plan : plans) {
            int from = phases.size();
            for (int f = 0; f < plan.instants().size(); f++) phases.add(new PairPhase(plan, f, faults));
            points.add(new Point(plan, IntStream.range(from, phases.size()).toArray()));
        }
        this.looked = new boolean[phases.size()];
        this.best = IntStream.range(0, table.codes().size())
                .mapToDouble(c -> Math.max(fit.log(c, 0), fit.log(c, 1)))
                .toArray();
        this.bestOfAll = Arrays.stream(best).sum();
        this.touchedIn = new int[best.length];
        limits();
    }

    /** A pair of which nothing is known yet; the edits of {@code a} come first. */
    public Pair pair(int a, int b) {
        return new Pair(a, b, phases.size());
    }

    /** Phases not looked at yet, those that the weighed codes are read in before the others. */
    public List<List<Integer>> phases() {
        BitSet first = new BitSet();
        for (int f = 0; f < phases.size(); f++)
            if (phases.get(f).running().stream().anyMatch(r -> shows(r.watch()))) first.set(f);
        List<Integer> others = new ArrayList<>();
        for (Point p : points) for (int f : p.phases) if (!first.get(f)) others.add(f);
        List<List<Integer>> out = new ArrayList<>();
        out.add(first.stream().boxed().toList());
        out.add(others);
        return out;
    }

    private boolean shows(int watch) {
        for (int c : table.shownBy(watch)) for (int w : weighed) if (c == w) return true;
        return false;
    }

    /** Looks at some phases under every pair. */
    public void look(List<Integer> some, List<Pair> pairs) {
        List<List<double[]>> readings =
                some.parallelStream().map(f -> phases.get(f).look(pairs)).toList();
        for (int i = 0; i < some.size(); i++) {
            int f = some.get(i);
            looked[f] = true;
            for (int k = 0; k < pairs.size(); k++)
                pairs.get(k).readings[f] = readings.get(i).get(k);
        }
        limits();
    }

    /** What holds for every pair: the limits of each watch as long as no fault is known to change it. */
    private void limits() {
        complete = true;
        for (Point p : points) {
            p.complete = true;
            p.unknown.clear();
            for (int f : p.phases)
                if (!looked[f]) {
                    p.complete = false;
                    phases.get(f).running().forEach(r -> p.unknown.set(r.watch()));
                }
            complete &= p.complete;
            p.least = p.usual.clone();
            p.most = p.usual.clone();
            p.unknown.stream().forEach(w -> {
                p.least[w] = 0;
                p.most[w] = 1;
            });
        }
    }

    /** The most that a pair can fit, natural logarithm; once every phase has been looked at, its fit. */
    public double atMost(Pair pair) {
        int[] codes = new int[best.length];
        int count = 0;
        turn++;
        for (int c : weighed) count = touch(c, codes, count);
        List<BitSet> changed = new ArrayList<>();
        for (Point p : points) {
            BitSet here = changed(p, pair);
            changed.add(here);
            for (int w = here.nextSetBit(0); w >= 0; w = here.nextSetBit(w + 1))
                for (int c : table.shownBy(w)) {
                    count = touch(c, codes, count);
                    for (int hidden : table.hiddenBy(c)) count = touch(hidden, codes, count);
                }
        }
        double[] least = new double[count];
        double[] most = new double[count];
        for (int k = 0; k < points.size(); k++) raise(points.get(k), pair, changed.get(k), codes, least, most);
        double sum = complete ? 0 : bestOfAll;
        for (int t = 0; t < count; t++) {
            double here = fit.log(codes[t], most[t]);
            if (least[t] != most[t]) here = Math.max(here, fit.log(codes[t], least[t]));
            sum += complete ? here : here - best[codes[t]];
        }
        return sum;
    }

    private int touch(int code, int[] codes, int count) {
        if (touchedIn[code] == turn) return count;
        touchedIn[code] = turn;
        codes[count] = code;
        return count + 1;
    }

    /** Watches of a point that are known and differ from a healthy engine's. */
    private BitSet changed(Point p, Pair pair) {
        BitSet out = new BitSet();
        for (int f : p.phases) if (looked[f]) phases.get(f).addChanged(pair, pair.readings[f], out);
        out.andNot(p.unknown);
        return out;
    }

    /** Raises the limits of each code's probability to those of one operating point. */
    private void raise(Point p, Pair pair, BitSet changed, int[] codes, double[] least, double[] most) {
        for (int f : p.phases) if (looked[f] && !phases.get(f).awake(pair, pair.readings[f])) return;
        for (int w = changed.nextSetBit(0); w >= 0; w = changed.nextSetBit(w + 1))
            p.least[w] = p.most[w] = condition(p, pair, w);
        for (int t = 0; t < least.length; t++) {
            most[t] = Math.max(most[t], shown(codes[t], p.most, p.least));
            if (p.complete) least[t] = Math.max(least[t], shown(codes[t], p.least, p.most));
        }
        for (int w = changed.nextSetBit(0); w >= 0; w = changed.nextSetBit(w + 1)) p.least[w] = p.most[w] = p.usual[w];
    }

    /** A code's probability from what shows it and what hides it. */
    private double shown(int code, double[] showing, double[] hiding) {
        double q = table.raw(code, showing);
        if (q == 0) return 0;
        for (int mask : table.masksOf(code)) q *= 1 - table.strength(mask) * table.raw(table.hider(mask), hiding);
        return q;
    }

    private double condition(Point p, Pair pair, int watch) {
        PointPlan.Running r = p.plan.running(watch);
        double second = r.second() < 0 ? 0 : channel(p, pair, r.second());
        return p.plan.condition(watch, p.plan.value(r, channel(p, pair, r.first()), second));
    }

    private double channel(Point p, Pair pair, int channel) {
        int f = p.phases[0] + p.plan.channels().get(channel).phase();
        return phases.get(f).value(pair, pair.readings[f], channel);
    }
}
