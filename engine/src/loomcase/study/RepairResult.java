package loomcase.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import loomcase.Quantile;
import loomcase.verdict.HarnessNeed;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.stat.StatUtils;

/**
 * What cases worked through to the right repair gave.
 *
 * @param cases how many
 * @param simulated how many of them got the voltages of their codes from ngspice
 * @param harnessNeeded in how many the truth calls for the whole harness
 * @param onlyByRules in how many of these only because no rule allows what would cost less
 * @param codes the verdicts from codes alone
 * @param tested the first verdicts after the planner's tests
 * @param ways what each way of working took
 */
public record RepairResult(
        int cases,
        int simulated,
        int harnessNeeded,
        int onlyByRules,
        Verdicts codes,
        Verdicts tested,
        List<WayResult> ways) {

    /**
     * Verdicts beside the truth, numbers of cases.
     *
     * @param notEnough said that the evidence is not enough
     * @param ask put to somebody with the authority
     * @param mends said what to do, and that mends all that is wrong
     * @param wrongHarness said full harness, there or later, where the truth does not call for it
     * @param missedHarness said something smaller where the truth calls for the harness
     */
    public record Verdicts(int notEnough, int ask, int mends, int wrongHarness, int missedHarness) {
        /** @param which verdicts of a case in their order, at least one */
        static Verdicts of(List<Worked> worked, Function<Worked, List<Worked.Ruled>> which) {
            int[] n = new int[5];
            for (Worked w : worked) {
                List<Worked.Ruled> all = which.apply(w);
                Worked.Ruled r = all.get(0);
                if (!r.settled()) n[r.option().equals(loomcase.verdict.Verdict.ASK) ? 1 : 0]++;
                else if (r.mends()) n[2]++;
                if (all.stream().anyMatch(Worked.Ruled::harness) && !w.harness().isThere()) n[3]++;
                if (r.settled() && !r.harness() && w.harness().isThere()) n[4]++;
            }
            return new Verdicts(n[0], n[1], n[2], n[3], n[4]);
        }

        private Verdicts plus(Verdicts o) {
            return new Verdicts(
                    notEnough + o.notEnough,
                    ask + o.ask,
                    mends + o.mends,
                    wrongHarness + o.wrongHarness,
                    missedHarness + o.missedHarness);
        }
    }

    /**
     * What one way of working took until everything was right.
     *
     * @param words the way in words
     * @param tests mean number of tests and of devices fitted on suspicion
     * @param minutes minutes
     * @param money in the circuit's currency
     * @param repairs mean number of repairs until the engine left, a comeback's not among them
     * @param wrongFirst share of cases in which the first repair did not mend all
     * @param back share of cases in which the engine left with a fault and came back
     * @param slower minutes that it takes above the planner, case by case; empty for the planner and for fewer than two cases
     */
    public record WayResult(
            String words,
            double tests,
            Spread minutes,
            Spread money,
            double repairs,
            double wrongFirst,
            double back,
            Optional<Difference> slower) {}

    /**
     * A mean of differences and where it would lie over many cases, with 95 % confidence by Student's t.
     *
     * @param mean over the cases
     * @param low it is not below this
     * @param high it is not above this
     */
    public record Difference(double mean, double low, double high) {
        static Optional<Difference> of(double[] x) {
            if (x.length < 2) return Optional.empty();
            double mean = StatUtils.mean(x);
            double off =
                    new TDistribution(x.length - 1).inverseCumulativeProbability(1 - (1 - KindResult.CONFIDENCE) / 2)
                            * Math.sqrt(StatUtils.variance(x) / x.length);
            return Optional.of(new Difference(mean, mean - off, mean + off));
        }

        /** True when it is not plain which of the two takes longer. */
        public boolean open() {
            return low <= 0 && high >= 0;
        }
    }

    /** A mean with the values below which a tenth, half and nine tenths of the cases lie. */
    public record Spread(double mean, double low, double middle, double high) {
        static Spread of(double[] x) {
            double sum = 0;
            for (double each : x) sum += each;
            return new Spread(
                    x.length == 0 ? 0 : sum / x.length, Quantile.of(x, 0.1), Quantile.of(x, 0.5), Quantile.of(x, 0.9));
        }
    }

    public RepairResult {
        ways = List.copyOf(ways);
    }

    /** Numbers of several kinds together, ways of working left out; empty for none. */
    public static Optional<RepairResult> all(List<RepairResult> kinds) {
        return kinds.stream()
                .reduce((a, b) -> new RepairResult(
                        a.cases + b.cases,
                        a.simulated + b.simulated,
                        a.harnessNeeded + b.harnessNeeded,
                        a.onlyByRules + b.onlyByRules,
                        a.codes.plus(b.codes),
                        a.tested.plus(b.tested),
                        List.of()));
    }

    static RepairResult of(List<Map<Working, Worked>> all, int simulated) {
        List<Worked> planner = all.stream().map(m -> m.get(Working.PLANNER)).toList();
        List<WayResult> ways = new ArrayList<>();
        for (Working way : Working.values()) {
            List<Worked> here = all.stream().map(m -> m.get(way)).toList();
            ways.add(new WayResult(
                    way.words(),
                    mean(here, Worked::tests),
                    Spread.of(numbers(here, Worked::minutes)),
                    Spread.of(numbers(here, Worked::money)),
                    mean(here, w -> w.verdicts().size()),
                    mean(here, w -> w.first().mends() ? 0 : 1),
                    mean(here, w -> w.back() ? 1 : 0),
                    way == Working.PLANNER ? Optional.empty() : slower(here, planner)));
        }
        return new RepairResult(
                all.size(),
                simulated,
                count(planner, HarnessNeed::isThere),
                count(planner, n -> n == HarnessNeed.RULES),
                Verdicts.of(planner, w -> w.codes().stream().toList()),
                Verdicts.of(planner, Worked::verdicts),
                ways);
    }

    private static Optional<Difference> slower(List<Worked> way, List<Worked> planner) {
        return Difference.of(IntStream.range(0, way.size())
                .mapToDouble(i -> way.get(i).minutes() - planner.get(i).minutes())
                .toArray());
    }

    private static int count(List<Worked> worked, Predicate<HarnessNeed> of) {
        return (int) worked.stream().map(Worked::harness).filter(of).count();
    }

    private static double mean(List<Worked> worked, ToDoubleFunction<Worked> of) {
        return worked.stream().mapToDouble(of).average().orElse(0);
    }

    private static double[] numbers(List<Worked> worked, ToDoubleFunction<Worked> of) {
        return worked.stream().mapToDouble(of).toArray();
    }
}
