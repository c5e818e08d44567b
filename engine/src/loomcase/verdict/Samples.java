package loomcase.verdict;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import loomcase.Quantile;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TriangularDistribution;
import org.apache.commons.math3.random.RandomGenerator;
import org.apache.commons.math3.random.Well19937c;

/**
 * How far the expected costs may be off: every figure drawn from its triangle, every family of faults from a lognormal
 * factor on its base rate, costs computed anew each time, always the same draws.
 *
 * @param low 5 % quantile of each remedy's cost
 * @param high 95 % quantile
 * @param wins share of draws in which each remedy is the cheapest one allowed
 */
record Samples(double[] low, double[] high, double[] wins) {
    static final int COUNT = 1000;
    static final long SEED = 20_131_107L;
    private static final double LOW = 0.05;
    private static final double HIGH = 0.95;

    /** Standard deviations from the middle to the 95 % quantile of a bell. */
    private static final double TO_95 = new NormalDistribution().inverseCumulativeProbability(0.95);

    static Samples of(Weighing weighing, Weighing.Question q, RepairCosts costs, Rulings rulings) {
        boolean[] allowed = weighing.allowed(rulings);
        double[][] totals = new double[allowed.length][COUNT];
        double[] wins = new double[allowed.length];
        RandomGenerator random = new Well19937c(SEED);
        double[] weight = weighing.weights();
        Map<String, TriangularDistribution> triangles = triangles(costs);
        for (int i = 0; i < COUNT; i++) {
            RepairCosts.Figures figures = draw(costs, triangles, random);
            Stakes stakes = weighing.stakes(q.with(figures), rulings)
                    .weighing(reweigh(weighing.causes(), weight, figures.get("posterior.spread"), random));
            double[] cost = stakes.totals();
            for (int a = 0; a < cost.length; a++) totals[a][i] = cost[a];
            OptionalInt best = stakes.cheapest(cost, allowed);
            if (best.isPresent()) wins[best.getAsInt()] += 1.0 / COUNT;
        }
        return new Samples(quantiles(totals, LOW), quantiles(totals, HIGH), wins);
    }

    /** No draws made: zeros for so many remedies. */
    static Samples none(int remedies) {
        return new Samples(new double[remedies], new double[remedies], new double[remedies]);
    }

    /** The triangle of every figure that has a spread. */
    static Map<String, TriangularDistribution> triangles(RepairCosts costs) {
        Map<String, TriangularDistribution> out = new LinkedHashMap<>();
        costs.ranges().forEach((key, r) -> {
            // without a generator of its own: that would be seeded anew for every one
            if (r.low() < r.high()) out.put(key, new TriangularDistribution(null, r.low(), r.likely(), r.high()));
        });
        return out;
    }

    private static RepairCosts.Figures draw(
            RepairCosts costs, Map<String, TriangularDistribution> triangles, RandomGenerator random) {
        Map<String, Double> out = new LinkedHashMap<>();
        costs.ranges().forEach((key, r) -> out.put(key, r.low()));
        triangles.forEach((key, t) -> out.put(key, t.inverseCumulativeProbability(random.nextDouble())));
        return new RepairCosts.Figures(out);
    }

    /** Prior odds of a family times a factor are posterior odds times the same factor, so the evidence stays as it is. */
    private static double[] reweigh(List<Cause> causes, double[] weight, double spread, RandomGenerator random) {
        Map<String, Double> factor = new LinkedHashMap<>();
        double sigma = Math.log(spread) / TO_95;
        double[] out = new double[weight.length];
        double sum = 0;
        for (int h = 0; h < out.length; h++) {
            Cause c = causes.get(h);
            out[h] = weight[h];
            for (String one : c.families().isEmpty() ? List.of(c.group()) : c.families())
                out[h] *= factor.computeIfAbsent(one, k -> Math.exp(sigma * random.nextGaussian()));
            sum += out[h];
        }
        for (int h = 0; h < out.length; h++) out[h] /= sum;
        return out;
    }

    private static double[] quantiles(double[][] totals, double share) {
        return Arrays.stream(totals)
                .mapToDouble(each -> Quantile.of(each, share))
                .toArray();
    }
}
