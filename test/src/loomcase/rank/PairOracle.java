package loomcase.rank;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.DoubleConsumer;
import loomcase.model.Edit;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;

/**
 * The slow twin of {@link PairSearch}: every pair of groups solved jointly, none left out by any bound.
 *
 * <p>Cost: groups squared, each a joint solve at every instant; minutes on the reference harness.
 */
final class PairOracle {
    private static final int AT_ONCE = 5_000;

    private final Predictor predictor;
    private final Likelihood likelihood;

    PairOracle(Predictor predictor, Likelihood likelihood) {
        this.predictor = predictor;
        this.likelihood = likelihood;
    }

    /** A pair and its joint score, natural logarithm. */
    record Scored(Group a, Group b, double score) {
        String ids() {
            return PairOracle.ids(a, b);
        }
    }

    /** A name of a pair that does not depend on which group comes first. */
    static String ids(Group a, Group b) {
        String x = a.leader().hypothesis().id();
        String y = b.leader().hypothesis().id();
        return x.compareTo(y) < 0 ? x + " + " + y : y + " + " + x;
    }

    /** The best {@code most} of all pairs that fit the codes better than their better half by more than one, best first. */
    List<Scored> best(List<Group> groups, int most, DoubleConsumer progress) {
        List<Scored> best = new ArrayList<>();
        List<Group[]> chunk = new ArrayList<>();
        long pairs = groups.size() * (groups.size() - 1L) / 2;
        long done = 0;
        for (int i = 0; i < groups.size(); i++)
            for (int j = i + 1; j < groups.size(); j++) {
                chunk.add(new Group[] {groups.get(i), groups.get(j)});
                done++;
                if (chunk.size() < AT_ONCE && done < pairs) continue;
                solve(chunk, best);
                chunk.clear();
                best.sort(Comparator.comparingDouble((Scored s) -> -s.score).thenComparing(Scored::ids));
                if (best.size() > most) best.subList(most, best.size()).clear();
                progress.accept((double) done / pairs);
            }
        return best;
    }

    private void solve(List<Group[]> chunk, List<Scored> out) {
        List<List<Edit>> edits = new ArrayList<>();
        for (Group[] p : chunk) edits.add(both(p[0], p[1]));
        predictor.prepare(edits);
        for (int k = 0; k < chunk.size(); k++) {
            Group a = chunk.get(k)[0];
            Group b = chunk.get(k)[1];
            Prediction joint = predictor.predict(edits.get(k));
            double fit = likelihood.ratio(joint, false);
            if (fit > Math.max(a.leader().logEvidence(), b.leader().logEvidence()) + 1)
                out.add(new Scored(a, b, a.logPriorMass() + b.logPriorMass() + fit));
        }
    }

    static List<Edit> both(Group a, Group b) {
        List<Group> byId = new ArrayList<>(List.of(a, b));
        byId.sort(Comparator.comparing(g -> g.leader().hypothesis().id()));
        List<Edit> edits = new ArrayList<>();
        byId.forEach(g -> edits.addAll(g.leader().edits()));
        return edits;
    }
}
