package loomcase.rank;

import java.util.Arrays;
import java.util.List;

/**
 * How probable it is that a common cause hit a certain set of its neighbours.
 *
 * <p>Which share π of its wires a cause hits is itself uncertain: beta distributed about a mean, and each wire is hit with
 * π by itself. Work has left the hit of a wire with some probability l. A neighbour is one wire, or several of one net,
 * which is hit where any of them is hit and left; so
 *
 * <pre>P(S) = E[ Π (1 − Π (1 − π·l)) over S · Π Π (1 − π·l) over the rest ] / P(at least {@code least} wires were hit)</pre>
 *
 * <p>Every factor is a sum of terms {@code π^j (1 − π)^(m − j)} whose coefficients are not negative, so nothing cancels,
 * and the mean of such a term is a product: Pólya's urn. Source of the distribution: the beta-binomial, N. L. Johnson, A. W.
 * Kemp and S. Kotz, "Univariate Discrete Distributions", 6.2.2 (from memory).
 */
final class HitShare {
    /** One factor: {@code Σ times[k] · π^(least + k) (1 − π)^(wires − least − k)}. */
    private record Factor(int least, double[] times) {}

    private final Factor[] hit;
    private final Factor[] spared;

    /** Natural logarithm of the mean of {@code π^j (1 − π)^(n − j)}, by j, on the condition that enough wires were hit. */
    private final double[] logMean;

    /** True when every neighbour is one wire as the cause left it, so that a set counts by its size. */
    private final boolean plain;

    /**
     * @param mean mean of the share, 0 to 1
     * @param weight weight of its distribution, in wires
     * @param wires how many the cause may have hit
     * @param least how many it hit at the least, 0 to 2
     * @param others how many of the wires belong to no neighbour and were not hit
     * @param left by neighbour, by wire of it, the probability that work has left its hit as it was
     */
    HitShare(double mean, double weight, int wires, int least, int others, List<List<Double>> left) {
        this.hit = left.stream().map(HitShare::hit).toArray(Factor[]::new);
        this.spared = left.stream().map(l -> trimmed(ofSpared(l))).toArray(Factor[]::new);
        this.plain = left.stream().allMatch(l -> l.equals(List.of(1.0)));
        int n = others + left.stream().mapToInt(List::size).sum();
        this.logMean = logMean(mean, weight, n);
        double enough = logEnough(logMean(mean, weight, wires), least);
        for (int j = 0; j <= n; j++) logMean[j] -= enough;
    }

    private static double[] logMean(double mean, double weight, int n) {
        double a = weight * mean;
        double b = weight - a;
        double[] out = new double[n + 1];
        for (int i = 0; i < n; i++) out[0] += Math.log((b + i) / (weight + i));
        for (int j = 0; j < n; j++) out[j + 1] = out[j] + Math.log((a + j) / (b + n - j - 1));
        return out;
    }

    private static double logEnough(double[] logMean, int least) {
        double fewer = 0;
        if (least > 0) fewer += Math.exp(logMean[0]);
        if (least > 1) fewer += (logMean.length - 1) * Math.exp(logMean[1]);
        return Math.log1p(-fewer);
    }

    /** Coefficients of {@code Π (1 − π·l)}, for {@code 1 − π·l = (1 − π) + π·(1 − l)}. */
    private static double[] ofSpared(List<Double> left) {
        double[] out = {1};
        for (double l : left) out = product(out, new double[] {1, 1 - l});
        return out;
    }

    private static Factor hit(List<Double> left) {
        double[] all = {1};
        for (int i = 0; i < left.size(); i++) all = product(all, new double[] {1, 1});
        double[] spared = ofSpared(left);
        for (int j = 0; j < all.length; j++) all[j] -= spared[j];
        return trimmed(all);
    }

    private static Factor trimmed(double[] all) {
        int from = 0;
        while (all[from] == 0) from++;
        int to = all.length;
        while (all[to - 1] == 0) to--;
        return new Factor(from, Arrays.copyOfRange(all, from, to));
    }

    private static double[] product(double[] a, double[] b) {
        double[] out = new double[a.length + b.length - 1];
        for (int i = 0; i < a.length; i++) for (int j = 0; j < b.length; j++) out[i + j] += a[i] * b[j];
        return out;
    }

    /** Natural logarithm of the probability that these neighbours were hit and no other. */
    double log(boolean[] in) {
        if (plain) return logMean[size(in)];
        int least = 0;
        double[] times = {1};
        for (int i = 0; i < in.length; i++) {
            Factor f = in[i] ? hit[i] : spared[i];
            least += f.least;
            if (f.times.length > 1 || f.times[0] != 1) times = product(times, f.times);
        }
        double sum = 0;
        for (int k = 0; k < times.length; k++) sum += times[k] * Math.exp(logMean[least + k] - logMean[least]);
        return logMean[least] + Math.log(sum);
    }

    /** By neighbour that is not in a set, what adding it adds to the logarithm; of no meaning for the others. */
    double[] adding(boolean[] in) {
        double[] out = new double[in.length];
        double before = log(in);
        boolean[] more = in.clone();
        for (int i = 0; i < in.length; i++) {
            if (in[i]) continue;
            if (plain) {
                Arrays.fill(out, logMean[size(in) + 1] - before);
                return out;
            }
            more[i] = true;
            out[i] = log(more) - before;
            more[i] = false;
        }
        return out;
    }

    /** How many neighbours are in a set. */
    static int size(boolean[] in) {
        int size = 0;
        for (boolean each : in) if (each) size++;
        return size;
    }
}
