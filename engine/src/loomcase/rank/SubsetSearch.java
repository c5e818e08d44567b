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

/**
 * Which of its neighbours did a common cause hit? The codes seen drive the search; subsets are not enumerated.
 *
 * <p>With n neighbours, each hit with probability π independently, the likelihood of the cause is {@code Σ_S π^|S|
 * (1−π)^(n−|S|) · L(S)}. The search grows S from nothing, each time by the neighbour that gains most, among those that
 * alone raise some code seen; codes of several hits combine as {@code 1 − Π(1 − q_i)} while growing. The chosen S is then
 * solved jointly.
 *
 * <p><b>Exact:</b> the network solution, prediction and likelihood of the S shown. <b>Bounded:</b> the sum over all other
 * subsets, taken as {@code L(S) · Π_j (weight of j as chosen + weight of j the other way)} with the ratios from the
 * combination rule. That product is exact when the neighbours act on different codes, and never less than the chosen
 * subset's own term. A better S that no single step reaches can be missed where hits act only jointly; for wires that
 * touch each other the search therefore starts from the best pair rather than from nothing.
 *
 * <p>Cost: n predictions of single hits (shared with the single hypotheses), at most n² combination steps over the few
 * codes each touches, and one joint solve for each growth step of touching wires.
 */
final class SubsetSearch {
    private static final int MOST_TOUCHING = 16;

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
        int n = cause.hits().size();
        Prediction[] alone = new Prediction[n];
        for (int i = 0; i < n; i++)
            alone[i] = predictor.predict(cause.hits().get(i).edits());
        double hit = Math.log(cause.hitShare()) - Math.log1p(-cause.hitShare());
        double[] q = nothing();
        boolean[] in = new boolean[n];
        int size = 0;
        while (true) {
            int best = -1;
            double most = 0;
            for (int i = 0; i < n; i++) {
                if (in[i] || !raisesSeen(alone[i])) continue;
                double gain = hit + gain(q, alone[i]);
                if (gain > most || best < 0 && size < cause.least()) {
                    most = gain;
                    best = i;
                }
            }
            if (best < 0) break;
            in[best] = true;
            size++;
            combine(q, alone[best]);
        }
        if (size < cause.least()) return Optional.empty();
        List<Hypothesis.Hit> chosen = new ArrayList<>();
        for (int i = 0; i < n; i++) if (in[i]) chosen.add(cause.hits().get(i));
        List<Edit> edits = chosen.stream().flatMap(x -> x.edits().stream()).toList();
        Prediction joint = predictor.predict(edits);
        double logSubsets = logSubsets(cause, alone, in, joint);
        return Optional.of(candidate(h, chosen, edits, joint, logSubsets));
    }

    private double logSubsets(Hypothesis.AnyOf cause, Prediction[] alone, boolean[] in, Prediction joint) {
        double[] q = nothing();
        for (int k = 0; k < joint.codes().length; k++) q[joint.codes()[k]] = joint.probability()[k];
        double share = cause.hitShare();
        double sum = 0;
        for (int i = 0; i < in.length; i++) {
            if (!in[i]) sum += Math.log(1 - share + share * Math.exp(gain(q, alone[i])));
            else {
                double without = loss(q, alone, in, i);
                sum += Math.log(share + (1 - share) * Math.exp(Math.min(without, 0)));
            }
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
        double hit = Math.log(cause.hitShare()) - Math.log1p(-cause.hitShare());
        Set<Hypothesis.Hit> chosen = new LinkedHashSet<>();
        double now = 0;
        for (int i = 0; i < near.size(); i++)
            for (int j = i + 1; j < near.size(); j++) {
                double score = 2 * hit + ratio(List.of(near.get(i), near.get(j)));
                if (score > now || chosen.isEmpty()) {
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
                double score = more.size() * hit + ratio(more);
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
        int others = cause.hits().size() - list.size();
        double logSubset =
                list.size() * Math.log(cause.hitShare()) + others * Math.log1p(-cause.hitShare() * touchable(cause));
        return Optional.of(candidate(h, list, edits, joint, logSubset));
    }

    /** Share of the neighbours whose touching would matter to some code. */
    private double touchable(Hypothesis.AnyOf cause) {
        long near =
                cause.hits().stream().filter(x -> relevant.contains(x.point())).count();
        return near / (double) cause.hits().size();
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
                likelihood.ratio(joint, h.comesAndGoes()));
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
