package loomcase.rank;

import java.util.Arrays;
import java.util.BitSet;
import loomcase.predict.Prediction;
import loomcase.predict.Touched;
import loomcase.solve.Ties;

/**
 * What the leader of a group does by itself, and how well two of them can fit the codes at most.
 *
 * <p>A code that neither touches is as on a healthy engine. One that a single half touches is as that one shows it. It lies
 * between that and a healthy engine's, for either may undo what the other does, where both change something in common, where
 * the control unit may fall silent, and where the code may be shown in a phase not looked at. Where what the half does is
 * another thing because of the other one, it may be anything. A code that both touch may be anything, and so may one that a
 * half brings near its limit and the other moves a little. <i>Anything</i> is whatever fits best.
 *
 * @param touched codes
 * @param alone what they add to the fit
 * @param undone the same where the other half may undo what fits worse than a healthy engine
 */
record Half(Touched touched, Fit alone, Fit undone) {
    /** What each code adds to a fit, natural logarithms, and the sum. */
    private record Fit(double[] byCode, double total) {
        static Fit of(double[] byCode) {
            return new Fit(byCode, Arrays.stream(byCode).sum());
        }
    }

    /**
     * @param touched the codes that the leader touches in the phases looked at
     * @param notLookedAt codes that may be shown by what is read in other phases
     */
    static Half of(Group g, Touched touched, BitSet notLookedAt, Likelihood likelihood) {
        Prediction p = g.leader().prediction();
        BitSet much = (BitSet) touched.much().clone();
        BitSet slightly = (BitSet) touched.slightly().clone();
        double[] fit = new double[likelihood.size()];
        double[] undone = new double[likelihood.size()];
        for (int k = 0; k < p.codes().length; k++) {
            int c = p.codes()[k];
            much.set(c);
            slightly.set(c);
            double here = likelihood.logLasting(c, p.probability()[k]);
            undone[c] = Math.max(0, here);
            fit[c] = notLookedAt.get(c) ? undone[c] : here;
        }
        return new Half(new Touched(much, slightly, touched.near(), touched.supply()), Fit.of(fit), Fit.of(undone));
    }

    /** The most that two halves can fit together, natural logarithm. */
    static double most(Half x, Half y, Ties ties, Likelihood likelihood) {
        BitSet anything = both(x.touched.much(), y.touched.much());
        anything.or(both(x.touched.near(), y.touched.slightly()));
        anything.or(both(y.touched.near(), x.touched.slightly()));
        if (ties.firstDiffers()) anything.or(x.touched.much());
        if (ties.secondDiffers()) anything.or(y.touched.much());
        boolean mayUndo = ties.meet() || x.touched.supply() || y.touched.supply();
        Fit a = mayUndo ? x.undone : x.alone;
        Fit b = mayUndo ? y.undone : y.alone;
        double sum = a.total + b.total;
        for (int c = anything.nextSetBit(0); c >= 0; c = anything.nextSetBit(c + 1))
            sum += likelihood.best(c) - a.byCode[c] - b.byCode[c];
        return sum;
    }

    private static BitSet both(BitSet a, BitSet b) {
        BitSet out = (BitSet) a.clone();
        out.and(b);
        return out;
    }
}
