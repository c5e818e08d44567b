package loomcase.rank;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import loomcase.faults.Hypothesis;
import loomcase.model.Edit;
import loomcase.model.PlaceId;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import org.apache.commons.math3.special.Beta;

/**
 * Which of its neighbours did a common cause hit? The codes seen drive the search; subsets are not enumerated.
 *
 * <p>How large a share π of its neighbours a cause hits is itself uncertain: π has a beta distribution whose mean is the
 * hit share of the priors file and whose weight is that of {@value #WEIGHT} neighbours, so a certain set S of k among n has
 * probability {@code B(k + a, n − k + b) / B(a, b)}. Neighbours whose hit would change no code drop out of n exactly. The
 * likelihood of the cause is the sum over S of that times L(S).
 *
 * <p>The search grows S from nothing, each time by the neighbour that gains most, among those that alone raise some code
 * seen; then it leaves out each one in turn and grows again, as long as that gains. Codes of several hits combine as
 * {@code 1 − Π(1 − q_i)} while growing. The chosen S is then solved jointly.
 *
 * <p><b>Exact:</b> the network solution, prediction and likelihood of the S shown. <b>Bounded:</b> the sum over all other
 * subsets, taken as {@code P(S)·L(S) · Π_j (1 + ratio_j)} with the ratio of each single change of S from the combination
 * rule; it is never less than the chosen subset's own term, and close when the neighbours act on different codes. A better
 * S that no such step reaches can be missed where hits act only jointly; for wires that touch each other the search
 * therefore starts from the best pair rather than from nothing, and looks at no more than {@value #MOST_TOUCHING} wires.
 *
 * <p>Cost: n predictions of single hits (shared with the single hypotheses), at most n·k² combination steps over the few
 * codes each touches, and one joint solve for each growth step of touching wires.
 * Source of the distribution: the beta-binomial, N. L. Johnson, A. W. Kemp and S. Kotz, "Univariate Discrete
 * Distributions", 6.2.2 (from memory).
 */
final class SubsetSearch {
    private static final int MOST_TOUCHING = 16;
    private static final double WEIGHT = 2;

    private final Predictor predictor;
    private final Likelihood likelihood;
    private final Set<String> relevant;

    /**
     * @param relevant points whose net some single fault ties to a code seen; touching wires are looked for among them
     */
    SubsetSearch(Predictor predictor, Likelihood likelihood, Set<String> relevant) {
        this.predictor = predictor;
        this.likelihood = likelihood;
        this.relevant = relevant;
    }

    /** The best subset of a common cause, or nothing when no neighbour explains any code seen. */
    Optional<Candidate> search(Hypothesis h, Hypothesis.AnyOf cause) {
        return cause.together() ? touching(h, cause) : independent(h, cause);
    }

    private Optional<Candidate> independent(Hypothesis h, Hypothesis.AnyOf cause) {
        List<Hypothesis.Hit> hits = new ArrayList<>();
        List<Prediction> predictions = new ArrayList<>();
        boolean useful = false;
        for (Hypothesis.Hit hit : cause.hits()) {
            Prediction p = predictor.predict(hit.edits());
            if (p.codes().length == 0) continue;
            hits.add(hit);
            predictions.add(p);
            useful |= raisesSeen(p);
        }
        if (!useful) return Optional.empty();
        Share share = new Share(cause.hitShare(), hits.size());
        Prediction[] alone = predictions.toArray(Prediction[]::new);
        boolean[] in = best(alone, share, cause.least());
        List<Hypothesis.Hit> chosen = new ArrayList<>();
        for (int i = 0; i < in.length; i++) if (in[i]) chosen.add(hits.get(i));
        if (chosen.size() < cause.least()) return Optional.empty();
        List<Edit> edits = chosen.stream().flatMap(x -> x.edits().stream()).toList();
        Prediction joint = predictor.predict(edits);
        return Optional.of(candidate(h, chosen, edits, joint, logSubsets(share, alone, in, joint)));
    }

    /** Probability of sets of a given size when the share hit is beta distributed. */
    private record Share(double mean, int n) {
        double log(int k) {
            double a = WEIGHT * mean;
            double b = WEIGHT - a;
            return Beta.logBeta(k + a, n - k + b) - Beta.logBeta(a, b);
        }
    }

    private boolean[] best(Prediction[] alone, Share share, int least) {
        boolean[] best = grow(alone, share, least, new boolean[alone.length], -1);
        double score = score(alone, share, best);
        boolean better = true;
        while (better) {
            better = false;
            for (int leave = 0; leave < alone.length; leave++) {
                if (!best[leave]) continue;
                boolean[] without = best.clone();
                without[leave] = false;
                boolean[] grown = grow(alone, share, least, without, leave);
                double s = score(alone, share, grown);
                if (s <= score + 1e-9) continue;
                best = grown;
                score = s;
                better = true;
            }
        }
        return best;
    }

    /** Adds the neighbour that gains most until none gains; never adds {@code banned}. */
    private boolean[] grow(Prediction[] alone, Share share, int least, boolean[] start, int banned) {
        boolean[] in = start.clone();
        double[] q = nothing();
        int size = 0;
        for (int i = 0; i < in.length; i++)
            if (in[i]) {
                combine(q, alone[i]);
                size++;
            }
        while (size < in.length) {
            int best = -1;
            double most = size < least ? Double.NEGATIVE_INFINITY : 0;
            for (int i = 0; i < in.length; i++) {
                if (in[i] || i == banned || !raisesSeen(alone[i])) continue;
                double gain = share.log(size + 1) - share.log(size) + gain(q, alone[i]);
                if (gain > most) {
                    most = gain;
                    best = i;
                }
            }
            if (best < 0) break;
            in[best] = true;
            size++;
            combine(q, alone[best]);
        }
        return in;
    }

    private double score(Prediction[] alone, Share share, boolean[] in) {
        double[] q = nothing();
        double fit = 0;
        int size = 0;
        for (int i = 0; i < in.length; i++)
            if (in[i]) {
                fit += gain(q, alone[i]);
                combine(q, alone[i]);
                size++;
            }
        return share.log(size) + fit;
    }

    private double logSubsets(Share share, Prediction[] alone, boolean[] in, Prediction joint) {
        double[] q = nothing();
        for (int k = 0; k < joint.codes().length; k++) q[joint.codes()[k]] = joint.probability()[k];
        int size = 0;
        for (boolean each : in) if (each) size++;
        double here = share.log(size);
        double sum = here;
        for (int i = 0; i < in.length; i++) {
            double other = in[i]
                    ? share.log(size - 1) - here + Math.min(0, loss(q, alone, in, i))
                    : share.log(size + 1) - here + Math.min(0, gain(q, alone[i]));
            if (!in[i] || size > 1) sum += Math.log1p(Math.exp(other));
        }
        return sum;
    }

    /** Change of log likelihood when hit i is left out, its codes recombined from the others. */
    private double loss(double[] q, Prediction[] alone, boolean[] in, int leave) {
        double sum = 0;
        Prediction p = alone[leave];
        for (int c : p.codes()) {
            double none = 1 - likelihood.healthy(c);
            for (int i = 0; i < in.length; i++)
                if (in[i] && i != leave) none *= 1 - alone[i].of(c, likelihood.healthy(c));
            sum += likelihood.logLasting(c, 1 - none) - likelihood.logLasting(c, at(q, c));
        }
        return sum;
    }

    private Optional<Candidate> touching(Hypothesis h, Hypothesis.AnyOf cause) {
        List<Hypothesis.Hit> near = cause.hits().stream()
                .filter(x -> relevant.contains(x.point()))
                .limit(MOST_TOUCHING)
                .toList();
        if (near.size() < 2) return Optional.empty();
        Share share = new Share(cause.hitShare(), cause.hits().size());
        Set<Hypothesis.Hit> chosen = new LinkedHashSet<>();
        double now = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < near.size(); i++)
            for (int j = i + 1; j < near.size(); j++) {
                double score = share.log(2) + ratio(List.of(near.get(i), near.get(j)));
                if (score > now) {
                    now = score;
                    chosen = new LinkedHashSet<>(List.of(near.get(i), near.get(j)));
                }
            }
        boolean grew = true;
        while (grew) {
            grew = false;
            Hypothesis.Hit best = null;
            for (Hypothesis.Hit each : near) {
                if (chosen.contains(each)) continue;
                List<Hypothesis.Hit> more = new ArrayList<>(chosen);
                more.add(each);
                double score = share.log(more.size()) + ratio(more);
                if (score > now) {
                    now = score;
                    best = each;
                }
            }
            if (best != null) grew = chosen.add(best);
        }
        List<Hypothesis.Hit> list = List.copyOf(chosen);
        List<Edit> edits = bridges(list);
        Prediction joint = predictor.predict(edits);
        if (!raisesSeen(joint)) return Optional.empty();
        return Optional.of(candidate(h, list, edits, joint, share.log(list.size())));
    }

    private double ratio(List<Hypothesis.Hit> hits) {
        return likelihood.ratio(predictor.predict(bridges(hits)), false);
    }

    private static List<Edit> bridges(List<Hypothesis.Hit> hits) {
        List<Edit> out = new ArrayList<>();
        for (int i = 1; i < hits.size(); i++)
            out.add(new Edit.Bridge(hits.get(i - 1).point(), hits.get(i).point(), Edit.SHORT_OHMS));
        return out;
    }

    private Candidate candidate(
            Hypothesis h, List<Hypothesis.Hit> chosen, List<Edit> edits, Prediction joint, double logSubsets) {
        List<PlaceId> places = new ArrayList<>(h.places());
        chosen.forEach(x -> places.add(x.place()));
        String hits = String.join(", ", chosen.stream().map(x -> x.place().id()).toList());
        return new Candidate(
                h,
                h.words() + ": " + hits,
                places,
                edits,
                joint,
                Candidate.logOdds(h.probability()) + logSubsets,
                likelihood.ratio(joint, h.comesAndGoes()),
                Candidate.NO_TESTS);
    }

    private double[] nothing() {
        double[] q = new double[predictor.table().codes().size()];
        Arrays.fill(q, Double.NaN);
        return q;
    }

    private double at(double[] q, int code) {
        return Double.isNaN(q[code]) ? likelihood.healthy(code) : q[code];
    }

    private double gain(double[] q, Prediction p) {
        double sum = 0;
        for (int k = 0; k < p.codes().length; k++) {
            int c = p.codes()[k];
            double before = at(q, c);
            double after = 1 - (1 - before) * (1 - p.probability()[k]);
            sum += likelihood.logLasting(c, after) - likelihood.logLasting(c, before);
        }
        return sum;
    }

    private void combine(double[] q, Prediction p) {
        for (int k = 0; k < p.codes().length; k++) {
            int c = p.codes()[k];
            q[c] = 1 - (1 - at(q, c)) * (1 - p.probability()[k]);
        }
    }

    private boolean raisesSeen(Prediction p) {
        for (int k = 0; k < p.codes().length; k++) {
            int c = p.codes()[k];
            if (likelihood.isSeen(c) && p.probability()[k] > likelihood.healthy(c) + 0.01) return true;
        }
        return false;
    }
}
