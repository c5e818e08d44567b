package loomcase.verdict;

import java.util.Arrays;
import java.util.List;
import java.util.function.IntToDoubleFunction;

/**
 * What follows an act that did not do, or did not last; the letters are those of the package's formula.
 *
 * @param stakes what is decided about
 * @param best for every hypothesis the cheapest single act that cures it at even odds or better, of two faults both; -1 for
 *     none
 * @param bestMoney its whole expected cost with everything closed again
 * @param nextMoney the same of the next cheapest
 * @param later K + H of every single act, hidden damage found later
 * @param failing b · (K + M') of every act, the repair itself fails; of two halves each for itself
 */
record Sequel(Stakes stakes, int[] best, double[] bestMoney, double[] nextMoney, double[] later, double[] failing) {

    static Sequel of(Stakes stakes) {
        List<Stakes.Act> acts = stakes.acts();
        int n = stakes.weight().length;
        double[] later = new double[acts.size()];
        double[] failing = new double[acts.size()];
        for (int a = 0; a < later.length; a++) {
            Stakes.Act act = acts.get(a);
            for (int half : act.halves()) failing[a] += failing[half];
            if (act.isJoint()) continue;
            later[a] = later(stakes, act);
            failing[a] = act.fails() * (stakes.comebackOverhead() + stakes.money(act.again()));
        }
        Sequel s = new Sequel(stakes, new int[n], new double[n], new double[n], later, failing);
        Arrays.fill(s.best, -1);
        Arrays.fill(s.bestMoney, Double.POSITIVE_INFINITY);
        Arrays.fill(s.nextMoney, Double.POSITIVE_INFINITY);
        s.fill();
        for (int h = 0; h < n; h++) s.weigh(h);
        return s;
    }

    private static double later(Stakes stakes, Stakes.Act act) {
        return stakes.comebackOverhead()
                + Arrays.stream(act.cleanedBy())
                        .mapToDouble(a -> stakes.money(stakes.acts().get(a).again()))
                        .min()
                        .orElse(0);
    }

    /** Whether a single act cures a hypothesis at even odds or better. */
    private boolean does(int act, int h) {
        Stakes.Act a = stakes.acts().get(act);
        return !a.isJoint() && a.cures()[h] >= 0.5;
    }

    private void fill() {
        for (int a = 0; a < later.length; a++) {
            double bill = stakes.money(stakes.acts().get(a).again());
            for (int h = 0; h < best.length; h++)
                if (does(a, h)) consider(a, h, bill + stakes.acts().get(a).hidden()[h] * later[a]);
        }
    }

    /** What comes next is weighed like the first act: it may not do, not last, or leave damage behind. */
    private void weigh(int h) {
        double[] money = new double[later.length];
        for (int a = 0; a < money.length; a++)
            if (does(a, h)) {
                Stakes.Act act = stakes.acts().get(a);
                money[a] = stakes.money(act.again())
                        + (1 - act.cures()[h]) * notCured(h, a)
                        + act.cures()[h] * failing[a]
                        + leftBehind(h, a);
            }
        best[h] = -1;
        bestMoney[h] = Double.POSITIVE_INFINITY;
        nextMoney[h] = Double.POSITIVE_INFINITY;
        for (int a = 0; a < money.length; a++) if (does(a, h)) consider(a, h, money[a]);
    }

    private void consider(int act, int h, double money) {
        if (money < bestMoney[h]) {
            nextMoney[h] = bestMoney[h];
            bestMoney[h] = money;
            best[h] = act;
        } else nextMoney[h] = Math.min(nextMoney[h], money);
    }

    /**
     * C, what it costs when an act did not cure: going on in the same visit where a code shows it, else a comeback; then the
     * cheapest other act that cures the hypothesis at even odds or better, with what it may leave behind, taken to succeed.
     * That is a bound from below: it may fail in its turn. The same act again where there is no other; finding and curing it
     * outside this circuit where there is none.
     *
     * @param act its number, -1 when nothing was done
     */
    double notCured(int hypothesis, int act) {
        double next = next(hypothesis, act);
        double shows = shows(hypothesis, act);
        return Double.isFinite(next) ? stakes.overhead(shows) + next : stakes.outside(shows);
    }

    private double shows(int hypothesis, int act) {
        return act < 0 ? 0 : stakes.acts().get(act).shows()[hypothesis];
    }

    /** C of two faults neither of which was cured, which either may show: then both by a single act or each by its own. */
    double neitherCured(Stakes.Pair p, int act) {
        double shows =
                Stakes.either(p.first().mean(h -> shows(h, act)), p.second().mean(h -> shows(h, act)));
        IntToDoubleFunction own = h -> {
            double next = next(h, act);
            return Double.isFinite(next) ? next : stakes.outside(shows);
        };
        return stakes.overhead(shows)
                + Math.min(
                        next(p.hypothesis(), act),
                        p.first().mean(own) + p.second().mean(own));
    }

    /** The cheapest other act's money; infinite where nothing cures the hypothesis. */
    private double next(int hypothesis, int act) {
        double next = tried(act, best[hypothesis]) ? nextMoney[hypothesis] : bestMoney[hypothesis];
        return Double.isFinite(next) ? next : bestMoney[hypothesis];
    }

    private boolean tried(int act, int which) {
        if (act < 0 || which < 0) return false;
        return act == which || Arrays.stream(stakes.acts().get(act).halves()).anyMatch(half -> half == which);
    }

    /** f · g · (K + H) of an act for one fault, of two halves the sum. */
    double leftBehind(int hypothesis, int act) {
        Stakes.Act a = stakes.acts().get(act);
        double sum = a.isJoint() ? 0 : a.cures()[hypothesis] * a.hidden()[hypothesis] * later[act];
        for (int half : a.halves()) sum += leftBehind(hypothesis, half);
        return sum;
    }

    /** The same for two faults; one act leaves behind no more than once. */
    double leftBehind(Stakes.Pair p, int act) {
        Stakes.Act a = stakes.acts().get(act);
        double sum = 0;
        for (int half : a.halves()) sum += leftBehind(p, half);
        if (a.isJoint()) return sum;
        double first = p.first().mean(h -> a.cures()[h] * a.hidden()[h]);
        double second = p.second().mean(h -> a.cures()[h] * a.hidden()[h]);
        return Stakes.either(first, second) * later[act];
    }
}
