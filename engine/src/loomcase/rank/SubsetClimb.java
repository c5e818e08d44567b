package loomcase.rank;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import loomcase.model.Edit;
import loomcase.predict.Predictor;

/**
 * Climbs from one subset to a better one by adding, leaving out or exchanging single neighbours, every step solved
 * jointly, until no step gains.
 *
 * <p>Score of a subset: {@code log P(S) + log L(S)}. Cost of a step: n joint predictions, and k(n − k) more for the
 * exchanges, which are tried up to {@value #MOST_EXCHANGED} neighbours.
 */
final class SubsetClimb {
    private static final int MOST_EXCHANGED = 16;
    private static final double GAIN = 1e-9;

    /**
     * A step that loses more than this by the quick rule is not solved for, and counts in the sum with what that rule says.
     */
    private static final double HOPELESS = 5;

    /** Two tops this many neighbours apart share no set that either counts. */
    private static final int APART = 3;

    private final Predictor predictor;
    private final Likelihood likelihood;
    private final HitShare share;
    private final int least;
    private final Function<boolean[], List<Edit>> edits;
    private final ToDoubleFunction<boolean[]> quick;

    /**
     * @param share probability of a set
     * @param least smallest size allowed
     * @param edits what a set does to the circuit
     * @param quick score of a set without solving it, as far as that can be told; the same for all sets where it cannot
     */
    SubsetClimb(
            Predictor predictor,
            Likelihood likelihood,
            HitShare share,
            int least,
            Function<boolean[], List<Edit>> edits,
            ToDoubleFunction<boolean[]> quick) {
        this.predictor = predictor;
        this.likelihood = likelihood;
        this.share = share;
        this.least = least;
        this.edits = edits;
        this.quick = quick;
    }

    /**
     * Where a climb ended.
     *
     * @param in the set
     * @param logSum log of the sum over all sets, from the set itself and all that differ from it by one neighbour
     */
    record Top(boolean[] in, double logSum) {}

    /**
     * Climbs from each start. A prior that favours few or nearly all leaves a valley between, so there may be several tops:
     * the highest is the answer, and those that lie apart add to the sum.
     */
    Top climb(List<boolean[]> starts) {
        List<Top> tops = new ArrayList<>();
        starts.forEach(start -> tops.add(top(start)));
        Top best = tops.get(0);
        for (Top t : tops) if (score(t.in) > score(best.in) + GAIN) best = t;
        double sum = best.logSum;
        List<boolean[]> counted = new ArrayList<>(List.of(best.in));
        for (Top t : tops) {
            if (counted.stream().anyMatch(c -> differences(c, t.in) < APART)) continue;
            counted.add(t.in);
            sum = Likelihood.logSum(sum, t.logSum);
        }
        return new Top(best.in, sum);
    }

    /** The best of all sets of this many neighbours, and the sum over all of them. */
    Top every(int n) {
        List<boolean[]> sets = IntStream.range(0, 1 << n)
                .filter(set -> Integer.bitCount(set) >= least)
                .mapToObj(set -> of(set, n))
                .toList();
        prepare(sets);
        boolean[] best = sets.get(0);
        double most = Double.NEGATIVE_INFINITY;
        double sum = Double.NEGATIVE_INFINITY;
        for (boolean[] set : sets) {
            double score = score(set);
            sum = Likelihood.logSum(sum, score);
            if (score <= most) continue;
            most = score;
            best = set;
        }
        return new Top(best, sum);
    }

    private static boolean[] of(int set, int n) {
        boolean[] out = new boolean[n];
        for (int i = 0; i < n; i++) out[i] = (set >> i & 1) != 0;
        return out;
    }

    private static int differences(boolean[] a, boolean[] b) {
        int n = 0;
        for (int i = 0; i < a.length; i++) if (a[i] != b[i]) n++;
        return n;
    }

    private Top top(boolean[] start) {
        boolean[] best = start.clone();
        double score = score(best);
        boolean better = true;
        while (better) {
            better = false;
            boolean[] from = best;
            double hope = quick.applyAsDouble(from);
            List<boolean[]> near = near(from).stream()
                    .filter(each -> quick.applyAsDouble(each) > hope - HOPELESS)
                    .toList();
            prepare(near);
            for (boolean[] each : near) {
                double s = score(each);
                if (s <= score + GAIN) continue;
                score = s;
                best = each;
                better = true;
            }
        }
        return new Top(best, score + around(best, score));
    }

    /** Log of one and the sum over all sets that differ by one neighbour, as shares of this set's own term. */
    private double around(boolean[] top, double score) {
        double hope = quick.applyAsDouble(top);
        List<boolean[]> others = IntStream.range(0, top.length)
                .mapToObj(i -> flipped(top, i))
                .filter(other -> HitShare.size(other) >= least)
                .toList();
        double[] gain = others.stream()
                .mapToDouble(other -> quick.applyAsDouble(other) - hope)
                .toArray();
        prepare(IntStream.range(0, gain.length)
                .filter(i -> gain[i] > -HOPELESS)
                .mapToObj(others::get)
                .toList());
        double sum = 0;
        for (int i = 0; i < gain.length; i++)
            sum += Math.log1p(Math.exp(gain[i] > -HOPELESS ? score(others.get(i)) - score : gain[i]));
        return sum;
    }

    /** Adds the neighbour that gains most until none gains. */
    boolean[] grow(boolean[] start) {
        boolean[] best = start;
        double score = score(start);
        boolean better = true;
        while (better) {
            better = false;
            boolean[] from = best;
            prepare(IntStream.range(0, from.length)
                    .filter(i -> !from[i])
                    .mapToObj(i -> flipped(from, i))
                    .toList());
            for (int i = 0; i < from.length; i++) {
                if (from[i]) continue;
                boolean[] more = flipped(from, i);
                double s = score(more);
                if (s <= score + GAIN) continue;
                score = s;
                best = more;
                better = true;
            }
        }
        return best;
    }

    /** Has the predictions of many sets made at once, on all cores. */
    void prepare(List<boolean[]> sets) {
        predictor.prepare(sets.stream().map(edits).toList());
    }

    double score(boolean[] in) {
        return share.log(in) + likelihood.ratio(predictor.predict(edits.apply(in)), false);
    }

    private List<boolean[]> near(boolean[] in) {
        List<boolean[]> out = new ArrayList<>();
        for (int i = 0; i < in.length; i++) {
            boolean[] one = flipped(in, i);
            if (HitShare.size(one) >= least) out.add(one);
            if (!in[i] || in.length > MOST_EXCHANGED) continue;
            for (int j = 0; j < in.length; j++) if (!in[j]) out.add(flipped(one, j));
        }
        return out;
    }

    private static boolean[] flipped(boolean[] in, int i) {
        boolean[] out = in.clone();
        out[i] = !out[i];
        return out;
    }
}
