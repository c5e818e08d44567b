package loomcase.rank;

import java.util.OptionalInt;
import loomcase.faults.Priors;
import loomcase.predict.Between;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;

/**
 * How well a prediction fits the codes seen and not seen.
 *
 * <p>For a code with probability q of being shown while the fault is present, {@code a = 1 − (1 − q)(1 − stray)} and s the
 * probability of finding it stored though not active: {@code P(active) = a}, {@code P(stored) = (1 − a)·s}, {@code
 * P(absent) = (1 − a)(1 − s)}. A lasting fault has s = stray-stored. A fault that comes and goes is present now with
 * probability ρ; while away it shows only strays, and {@code s = 1 − (1 − 0.9·q)(1 − stray-stored)}; its likelihood is the
 * mixture of the two, all codes together. An occurrence count n weighs {@code 0.95·geometric(mean) + 0.05·uniform}, with
 * the mean of lasting faults, of those that come and go, or of strays. Codes that no watch looked for and that were not
 * seen say nothing.
 */
final class Likelihood {
    /** Share of the codes of a fault that has gone away which stay stored (judgement). */
    private static final double KEPT = 0.9;

    private static final double STRAY_COUNT_MEAN = 1.5;

    private enum Found {
        ACTIVE,
        STORED,
        ABSENT,
        UNKNOWN
    }

    private final double[] healthy;
    private final Found[] found;
    private final OptionalInt[] count;
    private final double[] base;

    /** By code, the most that it can weigh, see {@link #bestLasting()}. */
    private final double[] best;

    private final boolean[] lookedFor;
    private final double stray;
    private final double strayStored;
    private final double presentShare;
    private final double lastingMean;
    private final double passingMean;
    private final int[] seen;
    private final Complaint complaint;

    private Likelihood(Likelihood other, Complaint complaint) {
        this.healthy = other.healthy;
        this.found = other.found;
        this.count = other.count;
        this.base = other.base;
        this.best = other.best;
        this.lookedFor = other.lookedFor;
        this.stray = other.stray;
        this.strayStored = other.strayStored;
        this.presentShare = other.presentShare;
        this.lastingMean = other.lastingMean;
        this.passingMean = other.passingMean;
        this.seen = other.seen;
        this.complaint = complaint;
    }

    Likelihood(Predictor predictor, Evidence evidence, Priors priors) {
        this.complaint = Complaint.NONE;
        CodeTable table = predictor.table();
        this.healthy = predictor.healthy();
        this.stray = priors.get("observe.stray-code");
        this.strayStored = priors.get("observe.stray-stored-code");
        this.presentShare = priors.get("observe.intermittent-active-share");
        this.lastingMean = priors.get("observe.count-mean-permanent");
        this.passingMean = priors.get("observe.count-mean-intermittent");
        int n = table.codes().size();
        this.found = new Found[n];
        this.count = new OptionalInt[n];
        this.lookedFor = predictor.lookedFor();
        for (int c = 0; c < n; c++) {
            found[c] = lookedFor[c] ? Found.ABSENT : Found.UNKNOWN;
            count[c] = OptionalInt.empty();
        }
        for (Evidence.Seen s : evidence.codes()) {
            int c = table.index(s.code());
            found[c] = s.state() == Evidence.State.ACTIVE ? Found.ACTIVE : Found.STORED;
            count[c] = s.count();
        }
        this.seen = java.util.stream.IntStream.range(0, n).filter(this::isSeen).toArray();
        this.base = new double[n];
        for (int c = 0; c < n; c++) base[c] = log(c, healthy[c], false, true);
        this.best = new double[n];
        for (int c = 0; c < n; c++) if (lookedFor[c]) best[c] = Math.max(logLasting(c, 0), logLasting(c, 1));
    }

    /** The same of an engine that was brought in for some reason. */
    Likelihood with(Complaint reason) {
        return new Likelihood(this, reason);
    }

    /** Numbers of the codes seen. */
    int[] seen() {
        return seen;
    }

    /** How many codes there are. */
    int size() {
        return found.length;
    }

    boolean isSeen(int code) {
        return found[code] == Found.ACTIVE || found[code] == Found.STORED;
    }

    /** True when a prediction raises some code seen by more than this probability above a healthy engine's. */
    boolean raisesSeen(double by, Prediction p) {
        for (int k = 0; k < p.codes().length; k++) {
            int c = p.codes()[k];
            if (isSeen(c) && p.probability()[k] > healthy[c] + by) return true;
        }
        return false;
    }

    double healthy(int code) {
        return healthy[code];
    }

    /** True when the code's absence was looked for, so that it counts. */
    boolean isKnownAbsent(int code) {
        return found[code] == Found.ABSENT;
    }

    /** Natural logarithm of the likelihood ratio of one code, this probability against a healthy engine. */
    double ratio(int code, double q, boolean comesAndGoes) {
        if (!comesAndGoes) return log(code, q, false, true) - base[code];
        double now = logPresent() + log(code, q, true, true);
        double away = Math.log(1 - presentShare) + log(code, q, true, false);
        return logSum(now, away) - base[code];
    }

    /** Natural logarithm of the likelihood of all codes, relative to a healthy engine, the complaint weighed. */
    double ratio(Prediction p, boolean comesAndGoes) {
        double all = sum(p, comesAndGoes, this::log);
        // The part of that in which every code seen is a stray, none the fault's own.
        return complaint == Complaint.NONE ? all : complaint.weigh(all, sum(p, comesAndGoes, this::logStray));
    }

    /** Natural logarithm of the probability that a fault that comes and goes is there while codes are read. */
    double logPresent() {
        return Math.log(presentShare);
    }

    /** Natural logarithm of a probability of one code. */
    private interface OfCode {
        double log(int code, double q, boolean passing, boolean present);
    }

    private double sum(Prediction p, boolean comesAndGoes, OfCode of) {
        double now = 0;
        double away = 0;
        for (int k = 0; k < p.codes().length; k++) {
            int c = p.codes()[k];
            now += of.log(c, p.probability()[k], comesAndGoes, true) - base[c];
            if (comesAndGoes) away += of.log(c, p.probability()[k], true, false) - base[c];
        }
        return comesAndGoes ? logSum(logPresent() + now, Math.log(1 - presentShare) + away) : now;
    }

    private double logStray(int c, double q, boolean passing, boolean present) {
        double own = isSeen(c) ? own(c, q, present) : 0;
        return own == 0
                ? log(c, q, passing, present)
                : logFound(c, q, passing, present) + Math.log((1 - own) * counted(count[c], 0, 1));
    }

    /** Probability that some code looked for is shown by a fault itself, active or stored. */
    double someOwn(Prediction p, boolean comesAndGoes) {
        double now = 1;
        double away = 1;
        for (int k = 0; k < p.codes().length; k++) {
            if (!lookedFor[p.codes()[k]]) continue;
            now *= 1 - p.probability()[k];
            away *= 1 - KEPT * p.probability()[k];
        }
        return comesAndGoes ? presentShare * (1 - now) + (1 - presentShare) * (1 - away) : 1 - now;
    }

    /** Probability that a healthy engine shows some code, active or stored. */
    double someStray() {
        double none = 1;
        for (boolean looked : lookedFor) if (looked) none *= (1 - stray) * (1 - strayStored);
        return 1 - none;
    }

    /** Natural logarithm of the likelihood ratio of one code under a lasting fault. */
    double logLasting(int code, double q) {
        return log(code, q, false, true) - base[code];
    }

    /**
     * The most that any lasting faults can score: every code at whichever of "surely shown" and "surely not" fits better.
     *
     * <p>A code's likelihood is linear in q, so no q between is better. A code that no watch looked for stays as it is on a
     * healthy engine.
     */
    double bestLasting() {
        double sum = 0;
        for (double b : best) sum += b;
        return sum;
    }

    /** The most that one code can add to what lasting faults score. */
    double best(int code) {
        return best[code];
    }

    /** The same where something of the codes is known. */
    double bestLasting(Between known) {
        double sum = 0;
        for (int c = known.open().nextSetBit(0); c >= 0; c = known.open().nextSetBit(c + 1)) sum += best[c];
        for (int k = 0; k < known.codes().length; k++) {
            int c = known.codes()[k];
            sum += Math.max(logLasting(c, known.least()[k]), logLasting(c, known.most()[k]));
        }
        return sum;
    }

    private double log(int c, double q, boolean passing, boolean present) {
        if (!isSeen(c)) return logFound(c, q, passing, present);
        double own = own(c, q, present);
        return logFound(c, q, passing, present) + Math.log(counted(count[c], own, passing ? passingMean : lastingMean));
    }

    /** Natural logarithm of the probability that the code is found as it was, its count left out. */
    private double logFound(int c, double q, boolean passing, boolean present) {
        if (found[c] == Found.UNKNOWN) return 0;
        double a = present ? 1 - (1 - q) * (1 - stray) : stray;
        double s = passing && !present ? 1 - (1 - KEPT * q) * (1 - strayStored) : strayStored;
        switch (found[c]) {
            case ACTIVE:
                return Math.log(Math.max(a, 1e-300));
            case STORED:
                return Math.log(Math.max((1 - a) * s, 1e-12));
            default:
                return Math.log(Math.max((1 - a) * (1 - s), 1e-12));
        }
    }

    /** Probability that a code seen is the fault's own rather than a stray. */
    private double own(int c, double q, boolean present) {
        if (found[c] == Found.ACTIVE) return present ? Math.min(1, q / Math.max(1 - (1 - q) * (1 - stray), 1e-300)) : 0;
        return present ? 0 : Math.min(1, KEPT * q / Math.max(1 - (1 - KEPT * q) * (1 - strayStored), 1e-300));
    }

    private static double counted(OptionalInt count, double own, double mean) {
        if (count.isEmpty()) return 1;
        int n = Math.max(1, count.getAsInt());
        return own * geometric(n, mean) + (1 - own) * geometric(n, STRAY_COUNT_MEAN);
    }

    private static double geometric(int n, double mean) {
        double p = 1 / mean;
        return 0.95 * p * Math.pow(1 - p, n - 1.0) + 0.05 / 126;
    }

    static double logSum(double a, double b) {
        double most = Math.max(a, b);
        return most == Double.NEGATIVE_INFINITY ? most : most + Math.log(Math.exp(a - most) + Math.exp(b - most));
    }

    /** Words for how a code was found. */
    String foundWord(int code) {
        return found[code].name().toLowerCase(java.util.Locale.ROOT);
    }
}
