package loomcase.rank;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import loomcase.faults.Hypothesis;
import loomcase.model.Edit;
import loomcase.model.PlaceId;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;

/**
 * Which of its neighbours did a common cause hit? The codes seen drive the search; subsets are not enumerated.
 *
 * <p>How large a share of its neighbours a cause hits is itself uncertain, with the mean of the priors file and the weight
 * of {@value #WEIGHT} neighbours ({@link HitShare}). Neighbours whose hit would change no code drop out exactly. The
 * likelihood of the cause is the sum over sets S of P(S)·L(S).
 *
 * <p>The search grows S from nothing, each time by the neighbour that gains most, among those that alone raise some code
 * seen; then it leaves out each one in turn and grows again, as long as that gains. Codes of several hits combine as
 * {@code 1 − Π(1 − q_i)} while growing, the quick rule. From there it climbs, solving every step jointly that this rule does
 * not call hopeless ({@link SubsetClimb}), unless the cause is far behind the best quick answer of all. Wires that touch
 * each other act only jointly, and those of one net as one. For them no more than {@value TouchingNets#MOST} nets are looked
 * into: those held by ground, battery or a supply, and the signals on which a single fault explains the codes best. Up to
 * {@value #EVERY} of them all sets are solved; else the search grows from the best pair, every step solved, and from each
 * net that is held, for what touches that does so by itself, and climbs from all these.
 *
 * <p><b>Exact:</b> the network solution, prediction and likelihood of the S shown. <b>Bounded:</b> the sum over all other
 * subsets, taken as {@code P(S)·L(S) · Π_j (1 + ratio_j)} with the ratio of each single change of S, of a hopeless one by
 * the quick rule; it is never less than the chosen subset's own term. A better S that no such step reaches can be missed.
 * Tests hold both against all subsets of up to eight wires.
 *
 * <p>Cost: n predictions of single hits (shared with the single hypotheses), at most n·k² combination steps over the few
 * codes each touches, and for causes not far behind n joint predictions (n·k with up to 16 neighbours) for each step.
 */
final class SubsetSearch {
    /** By how much a probability must exceed a healthy engine's for the code to count as raised. */
    static final double RAISED = 0.01;

    static final double WEIGHT = 2;

    /** Up to this many neighbours the climb also starts from all of them. */
    private static final int FEW = 12;

    /** Up to this many nets that touch each other all their sets are solved. */
    private static final int EVERY = 8;

    /** Natural logarithm behind the best quick answer from which a cause is not worth climbing for. */
    static final double FAR_BEHIND = 12;

    private final Predictor predictor;
    private final Likelihood likelihood;
    private final Map<String, Double> relevant;

    /**
     * @param relevant points whose net some single fault ties to a code seen, with the log score of the best such fault;
     *     touching wires are looked for among them
     */
    SubsetSearch(Predictor predictor, Likelihood likelihood, Map<String, Double> relevant) {
        this.predictor = predictor;
        this.likelihood = likelihood;
        this.relevant = relevant;
    }

    /**
     * A cause with the set that quick rules find.
     *
     * @param starts sets to climb from, the quick one first
     * @param hope log score of the quick set
     */
    private record Rough(
            Hypothesis h, List<Hypothesis.Hit> hits, SubsetClimb climb, List<boolean[]> starts, double hope) {}

    /**
     * The best subset of each common cause of which some neighbour explains a code seen.
     *
     * @param toBeat log score of the best single fault
     */
    List<Candidate> search(List<Hypothesis> hypotheses, double toBeat) {
        List<Rough> rough = new ArrayList<>();
        for (Hypothesis h : hypotheses)
            if (h.cause() instanceof Hypothesis.AnyOf a)
                (together(h) ? touching(h, a) : independent(h, a)).ifPresent(rough::add);
        double most = toBeat;
        for (Rough r : rough) most = Math.max(most, r.hope);
        List<Candidate> out = new ArrayList<>();
        for (Rough r : rough) {
            SubsetClimb.Top top = top(r, r.hope >= most - FAR_BEHIND);
            List<Hypothesis.Hit> chosen = chosen(r.hits, top.in());
            Candidate c = candidate(r.h, chosen, edits((Hypothesis.AnyOf) r.h.cause(), chosen), top.logSum());
            if (likelihood.raisesSeen(RAISED, c.prediction())) out.add(c);
        }
        return out;
    }

    private static SubsetClimb.Top top(Rough r, boolean worthClimbing) {
        boolean[] quick = r.starts.get(0);
        if (!worthClimbing) return new SubsetClimb.Top(quick, r.climb.score(quick));
        if (together(r.h) && quick.length <= EVERY) return r.climb.every(quick.length);
        return r.climb.climb(r.starts);
    }

    private static boolean together(Hypothesis h) {
        return ((Hypothesis.AnyOf) h.cause()).together();
    }

    private Optional<Rough> independent(Hypothesis h, Hypothesis.AnyOf cause) {
        List<Hypothesis.Hit> hits = new ArrayList<>();
        List<Prediction> predictions = new ArrayList<>();
        boolean useful = false;
        for (Hypothesis.Hit hit : cause.hits()) {
            Prediction p = predictor.predict(hit.edits());
            if (p.codes().length == 0) continue;
            hits.add(hit);
            predictions.add(p);
            useful |= likelihood.raisesSeen(RAISED, p);
        }
        if (!useful) return Optional.empty();
        HitShare share = new HitShare(
                cause.hitShare(),
                WEIGHT,
                cause.hits().size(),
                cause.least(),
                0,
                hits.stream().map(hit -> List.of(hit.left())).toList());
        Prediction[] alone = predictions.toArray(Prediction[]::new);
        QuickSets quick = new QuickSets(likelihood, share, alone);
        boolean[] in = quick.best(cause.least(), new boolean[alone.length]);
        if (chosen(hits, in).size() < cause.least()) return Optional.empty();
        SubsetClimb climb = climb(cause, share, hits, quick::score);
        double hope = Candidate.logOdds(h.probability()) + Math.max(quick.score(in), climb.score(in));
        List<boolean[]> starts = new ArrayList<>(List.of(in));
        if (in.length <= FEW) starts.addAll(List.of(raising(alone), TouchingNets.all(in.length)));
        return Optional.of(new Rough(h, hits, climb, starts, hope));
    }

    private SubsetClimb climb(
            Hypothesis.AnyOf cause, HitShare share, List<Hypothesis.Hit> hits, ToDoubleFunction<boolean[]> quick) {
        return new SubsetClimb(predictor, likelihood, share, cause.least(), s -> edits(cause, chosen(hits, s)), quick);
    }

    private static List<Edit> edits(Hypothesis.AnyOf cause, List<Hypothesis.Hit> chosen) {
        if (cause.together()) return TouchingNets.bridges(chosen);
        return chosen.stream().flatMap(x -> x.edits().stream()).toList();
    }

    private boolean[] raising(Prediction[] alone) {
        boolean[] out = new boolean[alone.length];
        for (int i = 0; i < out.length; i++) out[i] = likelihood.raisesSeen(RAISED, alone[i]);
        return out;
    }

    private static List<Hypothesis.Hit> chosen(List<Hypothesis.Hit> hits, boolean[] in) {
        List<Hypothesis.Hit> out = new ArrayList<>();
        for (int i = 0; i < in.length; i++) if (in[i]) out.add(hits.get(i));
        return out;
    }

    private Optional<Rough> touching(Hypothesis h, Hypothesis.AnyOf cause) {
        TouchingNets touching = new TouchingNets(predictor, likelihood, relevant, cause);
        int nets = touching.nets().size();
        if (nets < 2) return Optional.empty();
        HitShare share = touching.share();
        SubsetClimb climb = climb(cause, share, touching.wires(), set -> 0);
        boolean[] pair = touching.bestPair(climb);
        List<boolean[]> starts = touching.starts(climb, share, pair);
        double hope = Candidate.logOdds(h.probability()) + climb.score(starts.get(0));
        if (nets > EVERY && nets <= FEW) starts.addAll(touching.moreStarts(climb, pair));
        return Optional.of(new Rough(h, touching.wires(), climb, starts, hope));
    }

    /** @param logSum log of P(S)·L(S), summed over all subsets */
    private Candidate candidate(Hypothesis h, List<Hypothesis.Hit> chosen, List<Edit> edits, double logSum) {
        List<PlaceId> places = new ArrayList<>(h.places());
        chosen.forEach(x -> places.add(x.place()));
        String hits = String.join(", ", chosen.stream().map(x -> x.place().id()).toList());
        Prediction joint = predictor.predict(edits);
        double evidence = likelihood.ratio(joint, h.comesAndGoes());
        return new Candidate(
                h,
                h.words() + ": " + hits,
                places,
                edits,
                joint,
                Candidate.logOdds(h.probability()) + logSum - evidence,
                evidence);
    }
}
