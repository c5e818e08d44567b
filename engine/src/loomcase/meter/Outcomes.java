package loomcase.meter;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import loomcase.predict.Normal;

/**
 * Cuts what a test may show into outcomes that can be told apart.
 *
 * <p>Readings: the predicted means are sorted and gathered into classes; a mean joins the class before it when it lies
 * within {@code resolution} standard deviations (the smaller of the two) of that class's mean. Borders lie between
 * neighbouring classes, halfway in standard deviations. The probability of a class under a hypothesis is what its own bell
 * has between the borders. Outcomes without a number are classes as they are. The outlier share of a hypothesis is spread
 * evenly over all classes, but for a look that found nothing.
 */
public final class Outcomes {
    private Outcomes() {}

    /**
     * One outcome that can be told from the others.
     *
     * @param outcome what stands for it, for a reading the weighted mean
     * @param low lowest reading that counts as this outcome, volts or ohms; minus infinity where open or no reading
     * @param high highest, infinity where open or no reading
     * @param probability over all hypotheses, weights normalised
     * @param given probability under each hypothesis, in their order
     */
    public record Likely(Outcome outcome, double low, double high, double probability, List<Double> given) {
        public Likely {
            given = List.copyOf(given);
        }
    }

    private record Class(Outcome.Unit unit, double weight, double mean, double sigma) {
        Class joined(Distribution.Bell b, double w) {
            double sum = weight + w;
            return new Class(unit, sum, (weight * mean + w * b.mean()) / sum, (weight * sigma + w * b.sigma()) / sum);
        }
    }

    /**
     * @param all distribution of each hypothesis
     * @param weights probability of each, not all zero
     * @param resolution standard deviations within which readings are one outcome
     * @return most probable first; probabilities add up to 1
     */
    static List<Likely> of(List<Distribution> all, List<Double> weights, double resolution) {
        if (all.size() != weights.size())
            throw new IllegalArgumentException(all.size() + " hypotheses but " + weights.size() + " weights");
        double total = weights.stream().mapToDouble(Double::doubleValue).sum();
        if (!(total > 0)) throw new IllegalArgumentException("the weights add up to " + total);
        List<Class> classes = classes(all, weights, resolution);
        TreeSet<Outcome> atoms = new TreeSet<>(Comparator.comparing(Outcome::words));
        for (Distribution d : all)
            for (Distribution.Part p : d.parts()) if (p instanceof Distribution.Atom a) atoms.add(a.outcome());
        int count = classes.size() + atoms.size();
        int odd = atoms.contains(Outcome.Seen.CLEAN) ? count - 1 : count;
        List<Likely> out = new ArrayList<>();
        for (int k = 0; k < classes.size(); k++) {
            Class c = classes.get(k);
            double low = k == 0 ? Double.NEGATIVE_INFINITY : border(classes.get(k - 1), c);
            double high = k == classes.size() - 1 ? Double.POSITIVE_INFINITY : border(c, classes.get(k + 1));
            List<Double> given = all.stream()
                    .map(d -> spread(d, between(d, low, high), count))
                    .toList();
            out.add(likely(new Outcome.Reading(c.mean, c.unit), low, high, given, weights, total));
        }
        for (Outcome o : atoms) {
            boolean none = o.equals(Outcome.Seen.CLEAN);
            List<Double> given = all.stream()
                    .map(d -> none ? (1 - d.outlier()) * d.probability(o) : spread(d, d.probability(o), odd))
                    .toList();
            out.add(likely(o, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, given, weights, total));
        }
        out.sort(Comparator.comparingDouble((Likely l) -> -l.probability).thenComparing(l -> l.outcome.words()));
        return out;
    }

    private static Likely likely(
            Outcome outcome, double low, double high, List<Double> given, List<Double> weights, double total) {
        double sum = 0;
        for (int i = 0; i < given.size(); i++) sum += weights.get(i) / total * given.get(i);
        return new Likely(outcome, low, high, sum, given);
    }

    private static double spread(Distribution d, double probability, int count) {
        return (1 - d.outlier()) * probability + d.outlier() / count;
    }

    private static List<Class> classes(List<Distribution> all, List<Double> weights, double resolution) {
        Map<Distribution.Bell, Double> bells = new LinkedHashMap<>();
        for (int i = 0; i < all.size(); i++)
            for (Distribution.Part p : all.get(i).parts())
                if (p instanceof Distribution.Bell b) bells.merge(b, b.weight() * weights.get(i), Double::sum);
        List<Distribution.Bell> sorted = new ArrayList<>(bells.keySet());
        sorted.sort(Comparator.comparingDouble(Distribution.Bell::mean).thenComparingDouble(Distribution.Bell::sigma));
        List<Class> out = new ArrayList<>();
        for (Distribution.Bell b : sorted) {
            double w = Math.max(bells.get(b), 1e-300);
            Class last = out.isEmpty() ? null : out.get(out.size() - 1);
            if (last != null && b.mean() - last.mean <= resolution * Math.min(last.sigma, b.sigma()))
                out.set(out.size() - 1, last.joined(b, w));
            else out.add(new Class(b.unit(), w, b.mean(), b.sigma()));
        }
        return out;
    }

    private static double border(Class a, Class b) {
        return (a.mean * b.sigma + b.mean * a.sigma) / (a.sigma + b.sigma);
    }

    private static double between(Distribution d, double low, double high) {
        double sum = 0;
        for (Distribution.Part p : d.parts())
            if (p instanceof Distribution.Bell b)
                sum += b.weight()
                        * (Normal.cumulative((high - b.mean()) / b.sigma())
                                - Normal.cumulative((low - b.mean()) / b.sigma()));
        return sum;
    }
}
