package loomcase.verdict;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;

/**
 * What the verdict decides about, stripped of engines: hypotheses with weights, acts that cure some of them, and money.
 *
 * <p>The letters are those of the package's formula.
 *
 * @param weight π, probability of each hypothesis, summing to 1
 * @param acts what may be done
 * @param rates price of an hour
 * @param diagnosisMinutes d, a fresh diagnosis when the complaint comes back
 * @param comebackHours hours of standing still at a comeback, beside the work
 * @param outsideMinutes finding and curing what no act cures
 */
record Stakes(
        double[] weight,
        List<Act> acts,
        Rates rates,
        double diagnosisMinutes,
        double comebackHours,
        double outsideMinutes) {

    /**
     * Work and parts.
     *
     * @param accessMinutes opening and closing
     * @param workMinutes the work itself
     * @param parts price of parts and sealing
     */
    record Bill(double accessMinutes, double workMinutes, double parts) {
        static final Bill NOTHING = new Bill(0, 0, 0);
    }

    /**
     * One thing that may be done.
     *
     * @param id its id
     * @param size place in the order from the smallest work to the largest
     * @param now M, bill with the access that is still closed
     * @param again bill when everything was closed again
     * @param cures f, probability that it cures, given each hypothesis, 0 to 1
     * @param fails b, probability that the repair itself fails within the warranty
     * @param hidden g, probability that it leaves further damage behind, given each hypothesis
     * @param cleanedBy numbers of the acts that take away what it may leave behind
     */
    record Act(
            String id,
            int size,
            Bill now,
            Bill again,
            double[] cures,
            double fails,
            double[] hidden,
            int[] cleanedBy) {}

    Stakes {
        acts = List.copyOf(acts);
        for (Act a : acts)
            if (a.cures.length != weight.length || a.hidden.length != weight.length)
                throw new IllegalArgumentException(
                        "act " + a.id + " speaks of " + a.cures.length + " hypotheses, not " + weight.length);
    }

    /** The same with other weights; need not sum to 1. */
    Stakes weighing(double[] weights) {
        return new Stakes(weights, acts, rates, diagnosisMinutes, comebackHours, outsideMinutes);
    }

    /** Everything that a comeback costs before the next remedy: a fresh diagnosis and standing still. */
    double comebackOverhead() {
        return rates.labour(diagnosisMinutes) + rates.downtime(diagnosisMinutes + 60 * comebackHours);
    }

    /** Money of a bill, downtime included. */
    double money(Bill b) {
        double minutes = b.accessMinutes + b.workMinutes;
        return rates.labour(minutes) + rates.downtime(minutes) + b.parts;
    }

    /**
     * What follows an act that did not do, for every hypothesis.
     *
     * @param best cheapest act that cures it at even odds or better, -1 for none
     * @param bestMoney its bill with everything closed again, and what it may leave behind
     * @param nextMoney the same of the next cheapest
     */
    record Sequel(int[] best, double[] bestMoney, double[] nextMoney) {}

    Sequel sequel() {
        int n = weight.length;
        Sequel s = new Sequel(new int[n], new double[n], new double[n]);
        Arrays.fill(s.best, -1);
        Arrays.fill(s.bestMoney, Double.POSITIVE_INFINITY);
        Arrays.fill(s.nextMoney, Double.POSITIVE_INFINITY);
        for (int a = 0; a < acts.size(); a++) {
            double bill = money(acts.get(a).again);
            double later = foundLater(acts.get(a));
            for (int h = 0; h < n; h++) {
                if (acts.get(a).cures[h] < 0.5) continue;
                double money = bill + acts.get(a).hidden[h] * later;
                if (money < s.bestMoney[h]) {
                    s.nextMoney[h] = s.bestMoney[h];
                    s.bestMoney[h] = money;
                    s.best[h] = a;
                } else s.nextMoney[h] = Math.min(s.nextMoney[h], money);
            }
        }
        return s;
    }

    /**
     * C, what it costs when an act did not cure: a fresh diagnosis, then the cheapest other act that cures the hypothesis at
     * even odds or better, with what it may leave behind, taken to succeed. That is a bound from below: it may fail in its turn. The same act again where
     * there is no other; finding and curing it outside this circuit where there is none.
     */
    double notCured(Sequel s, int hypothesis, int act) {
        double next = s.best[hypothesis] == act ? s.nextMoney[hypothesis] : s.bestMoney[hypothesis];
        if (Double.isInfinite(next)) next = s.bestMoney[hypothesis];
        if (Double.isFinite(next)) return comebackOverhead() + next;
        return rates.labour(outsideMinutes) + rates.downtime(outsideMinutes + 60 * comebackHours);
    }

    /** H, hidden damage found later: a comeback, then the cheapest act that takes away what this one left. */
    private double foundLater(Act act) {
        return comebackOverhead()
                + Arrays.stream(act.cleanedBy)
                        .mapToDouble(a -> money(acts.get(a).again))
                        .min()
                        .orElse(0);
    }

    /** Expected cost of an act over all hypotheses. */
    ExpectedCost expected(int act) {
        return expected(act, sequel());
    }

    ExpectedCost expected(int act, Sequel sequel) {
        Act a = acts.get(act);
        double comeback = 0;
        double failure = 0;
        double hidden = 0;
        double again = comebackOverhead() + money(a.again);
        double later = foundLater(a);
        for (int h = 0; h < weight.length; h++) {
            if (weight[h] == 0) continue;
            double cured = a.cures[h];
            if (cured < 1) comeback += weight[h] * (1 - cured) * notCured(sequel, h, act);
            failure += weight[h] * cured * a.fails * again;
            if (a.hidden[h] > 0 && cured > 0) hidden += weight[h] * cured * a.hidden[h] * later;
        }
        double all = Arrays.stream(weight).sum();
        double minutes = a.now.accessMinutes + a.now.workMinutes;
        return new ExpectedCost(
                all * rates.labour(a.now.accessMinutes),
                all * rates.labour(a.now.workMinutes),
                all * a.now.parts,
                all * rates.downtime(minutes),
                comeback,
                failure,
                hidden);
    }

    /** Expected cost of every act, in order. */
    double[] totals() {
        Sequel sequel = sequel();
        double[] out = new double[acts.size()];
        for (int a = 0; a < out.length; a++) out[a] = expected(a, sequel).total();
        return out;
    }

    /**
     * The cheapest act among those allowed, the smaller work where two cost the same.
     *
     * @param totals as {@link #totals()} gives them
     */
    OptionalInt cheapest(double[] totals, boolean[] allowed) {
        int best = -1;
        for (int a = 0; a < totals.length; a++) {
            if (!allowed[a]) continue;
            if (best < 0
                    || totals[a] < totals[best] - 1e-9
                    || totals[a] < totals[best] + 1e-9 && acts.get(a).size < acts.get(best).size) best = a;
        }
        return best < 0 ? OptionalInt.empty() : OptionalInt.of(best);
    }
}
