package loomcase.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import loomcase.meter.Subject;
import loomcase.meter.Test;

/**
 * One outcome that a test may have, as the verdict sees it.
 *
 * <p>A cause for which no test can be predicted shows every outcome as often as all the others together. Of two faults at
 * once each that the first may be is predicted with each that the second may be; what the outcome leaves of either is taken
 * not to hang on the other, which is exact for a test that one of them alone moves.
 *
 * @param chance probability of the outcome under each cause, by number
 * @param pairs of two faults at once what each may be after that outcome
 */
record Outlook(double[] chance, List<Stakes.Pair> pairs) {
    private static final double WORTH_PREDICTING = 1e-4;

    /** The same for two faults at once, which take many predictions. */
    private static final double TWO_WORTH_PREDICTING = 0.01;

    /** Share of two faults' probability below which what the two may be is left out. */
    private static final double RARE = 2e-3;

    /** What both faults of a pair may be, by place in their halves, and how probable that is given the pair. */
    private record Both(Stakes.Pair pair, int first, int second, double share) {}

    /**
     * Every outcome of a test, in the order in which it is predicted; one that is certain where nothing can be predicted.
     *
     * @param causes by number
     * @param pairs of two faults at once what each may be now
     */
    static List<Outlook> of(List<Cause> causes, List<Stakes.Pair> pairs, Test test, TestWorth.Prospects prospects) {
        int[] single = IntStream.range(0, causes.size())
                .filter(h ->
                        causes.get(h).subject().isPresent() && causes.get(h).probability() >= WORTH_PREDICTING)
                .toArray();
        List<Both> two = pairs.stream()
                .filter(p -> causes.get(p.hypothesis()).probability() >= TWO_WORTH_PREDICTING)
                .flatMap(p -> both(p).stream())
                .toList();
        List<Subject> subjects = new ArrayList<>();
        List<Double> weights = new ArrayList<>();
        for (int h : single) {
            subjects.add(subject(causes, h));
            weights.add(causes.get(h).probability());
        }
        for (Both b : two) {
            subjects.add(subject(causes, b));
            weights.add(causes.get(b.pair.hypothesis()).probability() * b.share);
        }
        Outlook certain = new Outlook(filled(causes.size(), 1), pairs);
        if (subjects.isEmpty()) return List.of(certain);
        double sum = weights.stream().mapToDouble(Double::doubleValue).sum();
        List<Outlook> out = new ArrayList<>();
        for (List<Double> given : prospects.chances(test, subjects, weights)) {
            double all = 0;
            for (int i = 0; i < subjects.size(); i++) all += weights.get(i) * given.get(i) / sum;
            double[] chance = filled(causes.size(), all);
            for (int i = 0; i < single.length; i++) chance[single[i]] = given.get(i);
            List<Double> ofTwo = given.subList(single.length, given.size());
            out.add(new Outlook(
                    chance,
                    pairs.stream().map(p -> after(p, two, ofTwo, chance)).toList()));
        }
        return out.isEmpty() ? List.of(certain) : out;
    }

    private static List<Both> both(Stakes.Pair p) {
        List<Both> out = new ArrayList<>();
        for (int a = 0; a < p.first().shares().length; a++)
            for (int b = 0; b < p.second().shares().length; b++)
                out.add(new Both(p, a, b, p.first().shares()[a] * p.second().shares()[b]));
        double most = out.stream().mapToDouble(Both::share).max().orElseThrow();
        out.removeIf(x -> x.share < Math.min(RARE, most));
        double sum = out.stream().mapToDouble(Both::share).sum();
        return out.stream()
                .map(x -> new Both(p, x.first, x.second, x.share / sum))
                .toList();
    }

    private static Subject subject(List<Cause> causes, int h) {
        return causes.get(h).subject().orElseThrow();
    }

    private static Subject subject(List<Cause> causes, Both b) {
        int a = b.pair.first().hypotheses()[b.first];
        int c = b.pair.second().hypotheses()[b.second];
        return Subject.both(
                causes.get(a).id(), subject(causes, a), causes.get(c).id(), subject(causes, c));
    }

    /**
     * What a pair's faults may be after an outcome.
     *
     * @param given probability of the outcome under each of {@code two}
     * @param chance gets the probability of the outcome under the pair, where it is predicted
     */
    private static Stakes.Pair after(Stakes.Pair p, List<Both> two, List<Double> given, double[] chance) {
        double[] first = new double[p.first().shares().length];
        double[] second = new double[p.second().shares().length];
        double sum = 0;
        boolean predicted = false;
        for (int i = 0; i < two.size(); i++) {
            Both b = two.get(i);
            if (b.pair != p) continue;
            predicted = true;
            double w = b.share * given.get(i);
            first[b.first] += w;
            second[b.second] += w;
            sum += w;
        }
        if (!predicted) return p;
        chance[p.hypothesis()] = sum;
        return sum == 0
                ? p
                : new Stakes.Pair(
                        p.hypothesis(),
                        new Stakes.Half(p.first().hypotheses(), scaled(first, sum)),
                        new Stakes.Half(p.second().hypotheses(), scaled(second, sum)));
    }

    private static double[] scaled(double[] shares, double sum) {
        return Arrays.stream(shares).map(s -> s / sum).toArray();
    }

    private static double[] filled(int n, double value) {
        double[] out = new double[n];
        Arrays.fill(out, value);
        return out;
    }
}
