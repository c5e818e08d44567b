package loomcase.plan;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * What the planner decides about, stripped of engines: hypotheses with weights, tests that part them, access steps that are
 * paid once, and what it costs to settle on a place.
 *
 * @param weight probability of each hypothesis, summing to 1
 * @param place place number of each hypothesis; settling means naming a place. Where two faults are one place they are one
 *     of two places
 * @param covers by place number the places that are repaired with it: itself, and of two places each of them
 * @param settleMinutes minutes to repair each place beside access, by place number
 * @param settleSteps access steps that each place needs, by place number; those a test has opened are not paid again
 * @param wrongMinutes minutes lost when a place is not among those repaired, by place number
 * @param vainMinutes minutes that the part fitted at a place would have paid, lost when it is settled on and nothing is wrong
 *     there, by place number
 * @param tests the tests at hand
 * @param stepMinutes minutes of each access step, by step number
 */
record Decision(
        double[] weight,
        int[] place,
        int[][] covers,
        double[] settleMinutes,
        BitSet[] settleSteps,
        double[] wrongMinutes,
        double[] vainMinutes,
        List<Test> tests,
        double[] stepMinutes) {

    private static final double LOG_2 = Math.log(2);

    /**
     * A test.
     *
     * @param id its id
     * @param minutes without access
     * @param steps access steps it needs
     * @param chance probability of each outcome under each hypothesis: {@code chance[outcome][hypothesis]}
     */
    record Test(String id, double minutes, BitSet steps, double[][] chance) {
        int outcomes() {
            return chance.length;
        }
    }

    Decision {
        tests = List.copyOf(tests);
        for (Test t : tests)
            if (t.chance[0].length != weight.length)
                throw new IllegalArgumentException(
                        "test " + t.id + " speaks of " + t.chance[0].length + " hypotheses, not " + weight.length);
    }

    /** No place covers another, needs access or a part, and each costs the same when it is missed. */
    Decision(
            double[] weight,
            int[] place,
            double[] settleMinutes,
            double wrongMinutes,
            List<Test> tests,
            double[] stepMinutes) {
        this(
                weight,
                place,
                IntStream.range(0, settleMinutes.length)
                        .mapToObj(p -> new int[] {p})
                        .toArray(int[][]::new),
                settleMinutes,
                noSteps(settleMinutes.length),
                DoubleStream.generate(() -> wrongMinutes)
                        .limit(settleMinutes.length)
                        .toArray(),
                new double[settleMinutes.length],
                tests,
                stepMinutes);
    }

    /** Places that need no access. */
    static BitSet[] noSteps(int places) {
        return Stream.generate(BitSet::new).limit(places).toArray(BitSet[]::new);
    }

    /** Minutes of a test with some access steps already open. */
    double minutes(Test t, BitSet open) {
        return t.minutes + closed(t.steps, open);
    }

    private double closed(BitSet steps, BitSet open) {
        double sum = 0;
        for (int s = steps.nextSetBit(0); s >= 0; s = steps.nextSetBit(s + 1)) if (!open.get(s)) sum += stepMinutes[s];
        return sum;
    }

    /** Minutes to repair each place, by place number, with some access steps already open. */
    double[] repairs(BitSet open) {
        double[] out = settleMinutes.clone();
        for (int p = 0; p < out.length; p++) out[p] += closed(settleSteps[p], open);
        return out;
    }

    /**
     * Expected minutes of settling now on the best place.
     *
     * @param w weights, need not sum to 1
     * @param repairs minutes to repair each place as {@link #repairs} says
     * @return minutes times the sum of the weights
     */
    double settle(double[] w, double[] repairs) {
        return least(byPlace(w), repairs);
    }

    /**
     * The same after an outcome of a test.
     *
     * @param room overwritten, see {@link #room}
     */
    double settle(double[] w, Test t, int outcome, double[] repairs, double[] room) {
        byPlace(w, t, outcome, room);
        return least(room, repairs);
    }

    /** Room for a number by place, so that who asks after many outcomes makes it once. */
    double[] room() {
        return new double[settleMinutes.length];
    }

    private double least(double[] byPlace, double[] repairs) {
        double total = 0;
        double lost = 0;
        for (int p = 0; p < byPlace.length; p++) {
            total += byPlace[p];
            lost += byPlace[p] * wrongMinutes[p];
        }
        if (total == 0) return 0;
        double best = Double.POSITIVE_INFINITY;
        for (int p = 0; p < byPlace.length; p++) {
            if (byPlace[p] == 0) continue;
            double spared = 0;
            double elsewhere = total;
            for (int c : covers[p]) {
                spared += byPlace[c] * wrongMinutes[c];
                elsewhere -= byPlace[c];
            }
            best = Math.min(best, total * repairs[p] + lost - spared + elsewhere * vainMinutes[p]);
        }
        return best;
    }

    private double[] byPlace(double[] w) {
        double[] out = room();
        for (int h = 0; h < w.length; h++) out[place[h]] += w[h];
        return out;
    }

    private void byPlace(double[] w, Test t, int outcome, double[] room) {
        Arrays.fill(room, 0);
        double[] chance = t.chance[outcome];
        for (int h = 0; h < w.length; h++) room[place[h]] += w[h] * chance[h];
    }

    /** Minutes of settling on the best place, by hypothesis, if it were known to be the one and all access were open. */
    double[] known() {
        double[] out = new double[weight.length];
        for (int h = 0; h < out.length; h++) {
            out[h] = Double.POSITIVE_INFINITY;
            for (int p = 0; p < covers.length; p++) {
                double wrong = wrongMinutes[place[h]] + vainMinutes[p];
                for (int c : covers[p]) if (c == place[h]) wrong = 0;
                out[h] = Math.min(out[h], settleMinutes[p] + wrong);
            }
        }
        return out;
    }

    /** Weights after an outcome, not scaled: their sum is the probability of the outcome. */
    double[] after(double[] w, Test t, int outcome) {
        double[] out = new double[w.length];
        double[] chance = t.chance[outcome];
        for (int h = 0; h < w.length; h++) out[h] = w[h] * chance[h];
        return out;
    }

    /** Entropy over places in bits, times the sum of the weights. */
    double entropy(double[] w) {
        return bits(byPlace(w));
    }

    /**
     * The same after an outcome of a test.
     *
     * @param room overwritten, see {@link #room}
     */
    double entropy(double[] w, Test t, int outcome, double[] room) {
        byPlace(w, t, outcome, room);
        return bits(room);
    }

    private static double bits(double[] byPlace) {
        double total = sum(byPlace);
        double bits = 0;
        for (double p : byPlace) if (p > 0) bits -= p * Math.log(p / total) / LOG_2;
        return bits;
    }

    static double sum(double[] w) {
        double sum = 0;
        for (double each : w) sum += each;
        return sum;
    }
}
