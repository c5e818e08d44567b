package loomcase.meter;

import java.util.ArrayList;
import java.util.List;

/**
 * What a test would give under one hypothesis: a mixture of normal readings and of outcomes without a number, with an
 * outlier share ε. Likelihood of an outcome x:
 *
 * <pre>p(x) = (1 − ε) · Σ weight · p_part(x) + ε · p_any(x)</pre>
 *
 * <p>Readings have a density per volt or per ohm, other outcomes a probability; as every hypothesis is asked about the same
 * outcome, ratios are right. {@code p_any} is flat over 40 V, flat in log over eight decades of ohms with a tenth of it over
 * range, and even over the {@code kinds} of outcomes without a number. A look that found nothing is no outlier.
 *
 * @param parts parts whose weights add up to 1
 * @param outlier ε, 0 to below 1
 * @param kinds how many outcomes without a number the test can give
 */
public record Distribution(List<Part> parts, double outlier, int kinds) {
    private static final double VOLTS_SPAN = 40;
    private static final double OHMS_DECADES = 8;

    /** Below this a meter's leads and contacts make the reading ({@code meter.ohms.absolute}), so none is likelier there. */
    private static final double LEAST_OHMS = 0.1;

    private static final double OVER_RANGE_SHARE = 0.1;

    /** One part of the mixture. */
    public sealed interface Part {
        double weight();
    }

    /**
     * Readings about a mean.
     *
     * @param weight share of the mixture
     * @param mean volts or ohms
     * @param sigma standard deviation, same unit
     */
    public record Bell(double weight, double mean, double sigma, Outcome.Unit unit) implements Part {
        public Bell {
            if (!(sigma > 0) || !Double.isFinite(mean))
                throw new IllegalArgumentException("mean " + mean + ", sigma " + sigma + " is no reading");
        }

        double density(double value) {
            double z = (value - mean) / sigma;
            return Math.exp(-0.5 * z * z) / (sigma * Math.sqrt(2 * Math.PI));
        }
    }

    /** An outcome without a number. */
    public record Atom(double weight, Outcome outcome) implements Part {}

    public Distribution {
        parts = List.copyOf(parts);
        double sum = parts.stream().mapToDouble(Part::weight).sum();
        if (Math.abs(sum - 1) > 1e-6) throw new IllegalArgumentException("weights add up to " + sum + ", not to 1");
        if (!(outlier >= 0 && outlier < 1))
            throw new IllegalArgumentException("outlier share " + outlier + " is not within 0 to 1");
    }

    /** Likelihood of an outcome: a density for a reading, a probability for any other. */
    public double likelihood(Outcome outcome) {
        double sum = 0;
        for (Part p : parts) {
            if (p instanceof Bell b && outcome instanceof Outcome.Reading r && r.unit() == b.unit())
                sum += b.weight() * b.density(r.value());
            else if (p instanceof Atom a && a.outcome().equals(outcome)) sum += a.weight();
        }
        return (1 - outlier) * sum + (outcome.equals(Outcome.Seen.CLEAN) ? 0 : outlier * unforeseen(outcome));
    }

    /** Likelihood of an outcome under a cause that nobody has thought of: flat over what a meter or an eye may find. */
    public double unforeseen(Outcome outcome) {
        if (outcome instanceof Outcome.OverRange) return OVER_RANGE_SHARE;
        if (!(outcome instanceof Outcome.Reading r)) return 1.0 / kinds;
        if (r.unit() == Outcome.Unit.VOLTS) return 1 / VOLTS_SPAN;
        return (1 - OVER_RANGE_SHARE) / (Math.max(LEAST_OHMS, r.value()) * OHMS_DECADES * Math.log(10));
    }

    /** The mean of the readings, NaN when the test gives none. */
    public double mean() {
        double weight = 0;
        double sum = 0;
        for (Part p : parts)
            if (p instanceof Bell b) {
                weight += b.weight();
                sum += b.weight() * b.mean();
            }
        return weight == 0 ? Double.NaN : sum / weight;
    }

    /** Probability, outliers apart, of an outcome without a number. */
    public double probability(Outcome outcome) {
        return parts.stream()
                .filter(p -> p instanceof Atom a && a.outcome().equals(outcome))
                .mapToDouble(Part::weight)
                .sum();
    }

    /** The mixture of two: this with {@code share}, the other with the rest. */
    Distribution mixed(double share, Distribution other) {
        List<Part> all = new ArrayList<>();
        parts.forEach(p -> all.add(scaled(p, share)));
        other.parts.forEach(p -> all.add(scaled(p, 1 - share)));
        return new Distribution(all, outlier, kinds);
    }

    private static Part scaled(Part p, double by) {
        if (p instanceof Bell b) return new Bell(b.weight() * by, b.mean(), b.sigma(), b.unit());
        if (p instanceof Atom a) return new Atom(a.weight() * by, a.outcome());
        throw new IllegalStateException("unknown part " + p);
    }
}
