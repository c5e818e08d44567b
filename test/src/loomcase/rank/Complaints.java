package loomcase.rank;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.Random;
import loomcase.faults.Hypothesis;
import loomcase.j1939.Code;
import loomcase.j1939.CodeList;
import loomcase.model.Edit;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;

/** Evidence for tests: typed, or drawn from a prediction with a seed. */
final class Complaints {
    static final List<String> BOTH = List.of("key-on", "idle-warm");

    private Complaints() {}

    /** Active and stored codes as a person types them. */
    static Evidence typed(String active, String stored, List<String> points) {
        List<Evidence.Seen> out = new ArrayList<>();
        for (CodeList.Entry e : CodeList.parse(active).entries())
            out.add(new Evidence.Seen(e.code(), Evidence.State.ACTIVE, e.count()));
        for (CodeList.Entry e : CodeList.parse(stored).entries())
            out.add(new Evidence.Seen(e.code(), Evidence.State.STORED, e.count()));
        return new Evidence(out, points);
    }

    /** What a lasting fault does, drawn evenly or by the priors. */
    static List<Edit> fault(List<Hypothesis> hypotheses, Random random, boolean evenly) {
        List<Hypothesis> from = hypotheses.stream()
                .filter(h ->
                        h.cause() instanceof Hypothesis.Fixed f && !f.edits().isEmpty() && !h.comesAndGoes())
                .toList();
        double sum = from.stream().mapToDouble(Hypothesis::probability).sum();
        Hypothesis drawn = from.get(random.nextInt(from.size()));
        if (!evenly) {
            double at = random.nextDouble() * sum;
            for (int k = 0; k < from.size() && at > 0; k++) {
                drawn = from.get(k);
                at -= drawn.probability();
            }
        }
        return ((Hypothesis.Fixed) drawn.cause()).edits();
    }

    /** Codes that a lasting fault shows, each drawn with its probability; some get a count; now and then a stray. */
    static Evidence drawn(Predictor predictor, Prediction p, Random random, double strays) {
        List<Evidence.Seen> out = new ArrayList<>();
        double[] healthy = predictor.healthy();
        boolean[] lookedFor = predictor.lookedFor();
        for (int c = 0; c < healthy.length; c++) {
            double q = p.of(c, healthy[c]);
            boolean active = random.nextDouble() < q || lookedFor[c] && random.nextDouble() < strays;
            boolean stored = !active && lookedFor[c] && random.nextDouble() < strays;
            if (!active && !stored) continue;
            Code code = predictor.table().codes().get(c);
            OptionalInt count = random.nextBoolean() ? OptionalInt.empty() : OptionalInt.of(1 + random.nextInt(20));
            out.add(new Evidence.Seen(code, active ? Evidence.State.ACTIVE : Evidence.State.STORED, count));
        }
        return new Evidence(out, BOTH);
    }
}
