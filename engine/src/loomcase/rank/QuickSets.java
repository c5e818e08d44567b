package loomcase.rank;

import java.util.Arrays;
import loomcase.predict.Prediction;

/**
 * Sets of what a common cause may have hit, by the quick rule: codes of several hits combine as {@code 1 − Π(1 − q_i)}.
 *
 * <p>Cost: at most n·k² combination steps over the few codes that each hit touches.
 *
 * @param alone what each neighbour does by itself
 */
record QuickSets(Likelihood likelihood, HitShare share, Prediction... alone) {
    /** The best set by the quick rule that has these neighbours at least. */
    boolean[] best(int least, boolean[] with) {
        boolean[] best = grow(least, with, -1);
        double score = score(best);
        boolean better = true;
        while (better) {
            better = false;
            for (int leave = 0; leave < alone.length; leave++) {
                if (!best[leave] || with[leave]) continue;
                boolean[] without = best.clone();
                without[leave] = false;
                boolean[] grown = grow(least, without, leave);
                double s = score(grown);
                if (s <= score + 1e-9) continue;
                best = grown;
                score = s;
                better = true;
            }
        }
        return best;
    }

    /** Adds the neighbour that gains most until none gains; never adds {@code banned}. */
    private boolean[] grow(int least, boolean[] start, int banned) {
        boolean[] in = start.clone();
        double[] q = nothing();
        int size = 0;
        for (int i = 0; i < in.length; i++)
            if (in[i]) {
                combine(q, alone[i]);
                size++;
            }
        while (size < in.length) {
            int best = -1;
            double[] adding = share.adding(in);
            double most = size < least ? Double.NEGATIVE_INFINITY : 0;
            for (int i = 0; i < in.length; i++) {
                if (in[i] || i == banned || !likelihood.raisesSeen(SubsetSearch.RAISED, alone[i])) continue;
                double gain = adding[i] + gain(q, alone[i]);
                if (gain > most) {
                    most = gain;
                    best = i;
                }
            }
            if (best < 0) break;
            in[best] = true;
            size++;
            combine(q, alone[best]);
        }
        return in;
    }

    /** Log P(S) and by how much more the codes fit than on a healthy engine, together. */
    double score(boolean[] in) {
        double[] q = nothing();
        double fit = 0;
        for (int i = 0; i < in.length; i++)
            if (in[i]) {
                fit += gain(q, alone[i]);
                combine(q, alone[i]);
            }
        return share.log(in) + fit;
    }

    private double[] nothing() {
        double[] q = new double[likelihood.size()];
        Arrays.fill(q, Double.NaN);
        return q;
    }

    private double at(double[] q, int code) {
        return Double.isNaN(q[code]) ? likelihood.healthy(code) : q[code];
    }

    private double gain(double[] q, Prediction p) {
        double sum = 0;
        for (int k = 0; k < p.codes().length; k++) {
            int c = p.codes()[k];
            double before = at(q, c);
            double after = 1 - (1 - before) * (1 - p.probability()[k]);
            sum += likelihood.logLasting(c, after) - likelihood.logLasting(c, before);
        }
        return sum;
    }

    private void combine(double[] q, Prediction p) {
        for (int k = 0; k < p.codes().length; k++) {
            int c = p.codes()[k];
            q[c] = 1 - (1 - at(q, c)) * (1 - p.probability()[k]);
        }
    }
}
