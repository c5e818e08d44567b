package loomcase.verdict;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import java.util.function.IntToDoubleFunction;

/**
 * What the verdict decides about, stripped of engines: hypotheses with weights, acts that cure some of them, and money.
 *
 * <p>The letters are those of the package's formula.
 *
 * @param weight π, probability of each hypothesis, summing to 1
 * @param pairs those of the hypotheses that are two faults at once
 * @param acts what may be done; an act made of others stands behind them
 * @param rates price of an hour
 * @param after what it takes to go on where an act did not do
 */
record Stakes(double[] weight, List<Pair> pairs, List<Act> acts, Rates rates, Afterwards after) {

    /**
     * What it takes to go on where an act did not do.
     *
     * @param diagnosisMinutes d, a fresh diagnosis, in the same visit or when the complaint comes back
     * @param comebackHours hours of standing still at a comeback, beside the work
     * @param outsideMinutes finding and curing what no act cures
     */
    record Afterwards(double diagnosisMinutes, double comebackHours, double outsideMinutes) {}

    /**
     * A hypothesis of two faults that are there at once; where one is does not hang on where the other is.
     *
     * @param hypothesis its number
     * @param first what the first fault may be
     * @param second what the second fault may be
     */
    record Pair(int hypothesis, Half first, Half second) {}

    /**
     * One of two faults.
     *
     * @param hypotheses numbers of what it may be, hypotheses with no weight of their own
     * @param shares probability of each, summing to 1
     */
    record Half(int[] hypotheses, double[] shares) {
        /** Mean over what it may be. */
        double mean(IntToDoubleFunction of) {
            double sum = 0;
            for (int i = 0; i < hypotheses.length; i++) sum += shares[i] * of.applyAsDouble(hypotheses[i]);
            return sum;
        }
    }

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
     * @param cures f, probability that it cures, given each hypothesis, 0 to 1; of two faults both
     * @param shows s, probability that what it did not cure shows a code at the check run after it, given each hypothesis;
     *     nothing is checked after nothing was done
     * @param fails b, probability that the repair itself fails within the warranty; of two halves either
     * @param hidden g, probability that it leaves further damage behind, given each hypothesis
     * @param cleanedBy numbers of the acts that take away what it may leave behind
     * @param halves numbers of the acts that are done together, or of the one beside which more is done; none for a single act
     */
    record Act(
            String id,
            int size,
            Bill now,
            Bill again,
            double[] cures,
            double[] shows,
            double fails,
            double[] hidden,
            int[] cleanedBy,
            int[] halves) {

        boolean isJoint() {
            return halves.length > 0;
        }

        /** The same; of two faults at once it cures both, each for itself, and leaves damage behind at either. */
        Act ofTwoFaults(List<Pair> pairs) {
            if (pairs.isEmpty()) return this;
            double[] cure = cures.clone();
            double[] leave = hidden.clone();
            for (Pair p : pairs) {
                cure[p.hypothesis] = p.first.mean(h -> cures[h]) * p.second.mean(h -> cures[h]);
                leave[p.hypothesis] = either(p.first.mean(h -> hidden[h]), p.second.mean(h -> hidden[h]));
            }
            return new Act(id, size, now, again, cure, shows, fails, leave, cleanedBy, halves);
        }
    }

    Stakes {
        pairs = List.copyOf(pairs);
        acts = List.copyOf(acts);
        for (Act a : acts)
            if (a.cures.length != weight.length || a.shows.length != weight.length || a.hidden.length != weight.length)
                throw new IllegalArgumentException(
                        "act " + a.id + " speaks of " + a.cures.length + " hypotheses, not " + weight.length);
    }

    /** Probability of one thing or another that has nothing to do with it, or both. */
    static double either(double a, double b) {
        return 1 - (1 - a) * (1 - b);
    }

    /** The same with other weights; need not sum to 1. */
    Stakes weighing(double[] weights) {
        return new Stakes(weights, pairs, acts, rates, after);
    }

    /** The same with other shares of what each of two faults may be; acts cure two faults accordingly. */
    Stakes with(List<Pair> others) {
        List<Act> again = acts.stream().map(a -> a.ofTwoFaults(others)).toList();
        return new Stakes(weight, others, again, rates, after);
    }

    /** K, everything that a comeback costs before the next remedy: a fresh diagnosis and standing still. */
    double comebackOverhead() {
        return overhead(0);
    }

    /**
     * What it costs to get from an act that did not cure to the next remedy: a fresh diagnosis, in the same visit where a code
     * shows it, at a comeback where none does.
     *
     * @param shows probability that a code shows it
     */
    double overhead(double shows) {
        return idle(after.diagnosisMinutes, 1 - shows);
    }

    /** Finding and curing what no act cures. */
    double outside(double shows) {
        return idle(after.outsideMinutes, 1 - shows);
    }

    /** Money of some minutes of work, and of standing still until the shop has the machine again with some probability. */
    private double idle(double minutes, double comeback) {
        return rates.labour(minutes) + rates.downtime(minutes + comeback * 60 * after.comebackHours);
    }

    /** Money of a bill, downtime included. */
    double money(Bill b) {
        double minutes = b.accessMinutes + b.workMinutes;
        return rates.labour(minutes) + rates.downtime(minutes) + b.parts;
    }

    /** What follows where an act does not do; the same for all weights. */
    Sequel sequel() {
        return Sequel.of(this);
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
        boolean[] two = new boolean[weight.length];
        for (Pair p : pairs) {
            two[p.hypothesis] = true;
            double w = weight[p.hypothesis];
            if (w == 0) continue;
            double first = p.first.mean(h -> a.cures[h]);
            double second = p.second.mean(h -> a.cures[h]);
            comeback += w
                    * (second * p.first.mean(h -> (1 - a.cures[h]) * sequel.notCured(h, act))
                            + first * p.second.mean(h -> (1 - a.cures[h]) * sequel.notCured(h, act))
                            + (1 - first) * (1 - second) * sequel.neitherCured(p, act));
            failure += w * either(first, second) * sequel.failing()[act];
            hidden += w * sequel.leftBehind(p, act);
        }
        for (int h = 0; h < weight.length; h++) {
            if (weight[h] == 0 || two[h]) continue;
            double cured = a.cures[h];
            if (cured < 1) comeback += weight[h] * (1 - cured) * sequel.notCured(h, act);
            failure += weight[h] * cured * sequel.failing()[act];
            hidden += weight[h] * sequel.leftBehind(h, act);
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

    /** Expected cost of an act where one hypothesis is known to be true. */
    double given(int act, int hypothesis, Sequel sequel) {
        double[] certain = new double[weight.length];
        certain[hypothesis] = 1;
        return weighing(certain).expected(act, sequel).total();
    }

    /** Expected cost of every act, in order. */
    double[] totals() {
        Sequel sequel = sequel();
        double[] out = new double[acts.size()];
        for (int a = 0; a < out.length; a++) out[a] = expected(a, sequel).total();
        return out;
    }

    /**
     * The cheapest act among those allowed that cure something, the smaller work where two cost the same. One that cures next
     * to nothing is none: its cost is that of going on after it, by remedies that may be forbidden now.
     *
     * @param totals as {@link #totals()} gives them
     */
    OptionalInt cheapest(double[] totals, boolean[] allowed) {
        int best = -1;
        for (int a = 0; a < totals.length; a++) {
            if (!allowed[a] || cures(a) < Verdict.CURES_NOTHING) continue;
            if (best < 0
                    || totals[a] < totals[best] - 1e-9
                    || totals[a] < totals[best] + 1e-9 && acts.get(a).size < acts.get(best).size) best = a;
        }
        return best < 0 ? OptionalInt.empty() : OptionalInt.of(best);
    }

    /** Probability that an act cures, over all hypotheses. */
    double cures(int act) {
        double[] cures = acts.get(act).cures;
        double sum = 0;
        double all = 0;
        for (int h = 0; h < cures.length; h++) {
            sum += weight[h] * cures[h];
            all += weight[h];
        }
        return all == 0 ? 0 : sum / all;
    }
}
