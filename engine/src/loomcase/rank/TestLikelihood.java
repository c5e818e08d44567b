package loomcase.rank;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.meter.MeterPrediction;
import loomcase.meter.Subject;

/**
 * How well candidates fit the tests made.
 *
 * <p>Each test weighs by the ratio of its outcome's likelihood under the candidate to that under a healthy engine, from the
 * same network with the test's setup applied. <b>Bounded:</b> only the {@value #MOST} candidates best by codes, and none
 * more than e^{@value #FAR} times less probable than the best, are predicted; the others count as healthy in every test.
 */
final class TestLikelihood {
    private static final int MOST = 1500;
    private static final double FAR = 25;

    /** Logarithms of likelihoods found so far for one meter, so that a new reading does not weigh the old ones again. */
    static final class Memory {
        private static final int MOST_TESTS = 32;

        private final Map<Evidence.Tested, Map<Subject, Double>> byTest = new LinkedHashMap<>(16, 0.75f, true) {
            private static final long serialVersionUID = 1L;

            @Override
            protected boolean removeEldestEntry(Map.Entry<Evidence.Tested, Map<Subject, Double>> eldest) {
                return size() > MOST_TESTS;
            }
        };

        Map<Subject, Double> of(Evidence.Tested test) {
            return byTest.computeIfAbsent(test, k -> new HashMap<>());
        }
    }

    private final MeterPrediction meter;
    private final List<Evidence.Tested> tested;
    private final List<Map<Subject, Double>> known;
    private final double[] healthy;

    /**
     * @param memory kept for this meter from one ranking to the next
     */
    TestLikelihood(MeterPrediction meter, List<Evidence.Tested> tested, Memory memory) {
        this.known = tested.stream().map(memory::of).toList();
        this.meter = meter;
        this.tested = tested;
        this.healthy = new double[tested.size()];
        for (int t = 0; t < healthy.length; t++) healthy[t] = log(t, Subject.NOTHING);
    }

    private double log(int t, Subject subject) {
        Double before = known.get(t).get(subject);
        if (before != null) return before;
        double likelihood =
                meter.likelihood(tested.get(t).test(), subject, tested.get(t).outcome());
        double log = Math.log(Math.max(likelihood, 1e-300));
        known.get(t).put(subject, log);
        return log;
    }

    /** Logarithms of the likelihood ratio of each test under a candidate. */
    double[] logs(Candidate c) {
        double[] out = new double[healthy.length];
        if (c.edits().isEmpty()) return out;
        Subject subject = c.subject();
        for (int t = 0; t < out.length; t++) out[t] = log(t, subject) - healthy[t];
        return out;
    }

    /** The same under a cause outside the model, summed. */
    double outside() {
        double sum = 0;
        for (int t = 0; t < healthy.length; t++)
            sum += Math.log(meter.predict(tested.get(t).test(), Subject.NOTHING)
                            .unforeseen(tested.get(t).outcome()))
                    - healthy[t];
        return sum;
    }

    /** The candidates with their tests weighed. */
    List<Candidate> weigh(List<Candidate> candidates) {
        if (healthy.length == 0) return candidates;
        List<Candidate> sorted = new ArrayList<>(candidates);
        sorted.sort(Comparator.comparingDouble((Candidate c) -> -c.logScore())
                .thenComparing(c -> c.hypothesis().id()));
        List<Candidate> out = new ArrayList<>();
        for (int i = 0; i < sorted.size(); i++) {
            Candidate c = sorted.get(i);
            boolean near = i < MOST && c.logScore() > sorted.get(0).logScore() - FAR;
            out.add(c.withTests(near ? logs(c) : new double[healthy.length]));
        }
        return out;
    }
}
