package loomcase.rank;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import loomcase.faults.Hypothesis;
import loomcase.model.Edit;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;

/**
 * Where to start looking for wires that touch each other: those of one net are as one wire, and what is held by ground, the
 * battery or a supply is looked into though no code is its own.
 */
final class TouchingNets {
    /** Nets looked into at most. */
    static final int MOST = 16;

    private final Predictor predictor;
    private final Likelihood likelihood;
    private final Hypothesis.AnyOf cause;
    private final List<List<Hypothesis.Hit>> nets;

    /** @param relevant points whose net some single fault ties to a code seen, with the log score of the best such fault */
    TouchingNets(Predictor predictor, Likelihood likelihood, Map<String, Double> relevant, Hypothesis.AnyOf cause) {
        this.predictor = predictor;
        this.likelihood = likelihood;
        this.cause = cause;
        this.nets = nets(relevant, cause);
    }

    /** The wires that are looked into, by net, in their order; none where no net of theirs has to do with a code seen. */
    List<List<Hypothesis.Hit>> nets() {
        return nets;
    }

    private static List<List<Hypothesis.Hit>> nets(Map<String, Double> relevant, Hypothesis.AnyOf cause) {
        if (cause.hits().stream().noneMatch(hit -> relevant.containsKey(hit.point()))) return List.of();
        Map<String, List<Hypothesis.Hit>> all = new LinkedHashMap<>();
        Map<String, Double> worth = new HashMap<>();
        for (Hypothesis.Hit hit : cause.hits()) {
            double own = hit.held()
                    ? Double.POSITIVE_INFINITY
                    : relevant.getOrDefault(hit.point(), Double.NEGATIVE_INFINITY);
            all.computeIfAbsent(hit.net(), net -> new ArrayList<>()).add(hit);
            worth.merge(hit.net(), own, Math::max);
        }
        Set<String> kept = all.keySet().stream()
                .filter(net -> worth.get(net) > Double.NEGATIVE_INFINITY)
                .sorted(Comparator.comparingDouble(net -> -worth.get(net)))
                .limit(MOST)
                .collect(Collectors.toSet());
        return all.keySet().stream().filter(kept::contains).map(all::get).toList();
    }

    /** One wire of each net. */
    List<Hypothesis.Hit> wires() {
        return nets.stream().map(net -> net.get(0)).toList();
    }

    /** Probability of sets of these nets, no other net being hit. */
    HitShare share() {
        int all = cause.hits().size();
        return new HitShare(
                cause.hitShare(),
                SubsetSearch.WEIGHT,
                all,
                cause.least(),
                all - nets.stream().mapToInt(List::size).sum(),
                nets.stream()
                        .map(net -> net.stream().map(Hypothesis.Hit::left).toList())
                        .toList());
    }

    /** The two of all nets that fit best touching each other. */
    boolean[] bestPair(SubsetClimb climb) {
        return bestPair(climb, new boolean[nets.size()]);
    }

    /**
     * Sets to climb from, best first: grown from the best pair, and for each net that is held what touches it; none far
     * behind.
     */
    List<boolean[]> starts(SubsetClimb climb, HitShare share, boolean[] bestPair) {
        List<boolean[]> out = new ArrayList<>();
        out.add(climb.grow(bestPair));
        List<Hypothesis.Hit> wires = wires();
        for (int i = 0; i < wires.size(); i++)
            if (wires.get(i).held()) against(i, wires, share).ifPresent(out::add);
        climb.prepare(out);
        out.sort(Comparator.comparingDouble(set -> -climb.score(set)));
        double most = climb.score(out.get(0));
        out.removeIf(set -> climb.score(set) < most - SubsetSearch.FAR_BEHIND);
        return out;
    }

    /** More sets to climb from, where few nets leave time for them. */
    List<boolean[]> moreStarts(SubsetClimb climb, boolean[] bestPair) {
        return List.of(bestPair(climb, bestPair), all(nets.size()));
    }

    /** The best set of wires that touch one that is held, which each does by itself, as wires that touch ground do. */
    private Optional<boolean[]> against(int held, List<Hypothesis.Hit> wires, HitShare share) {
        Prediction[] alone = new Prediction[wires.size()];
        for (int i = 0; i < alone.length; i++)
            alone[i] = i == held
                    ? Prediction.NONE
                    : predictor.predict(bridges(List.of(wires.get(Math.min(i, held)), wires.get(Math.max(i, held)))));
        boolean[] with = new boolean[alone.length];
        with[held] = true;
        boolean[] best = new QuickSets(likelihood, share, alone).best(cause.least(), with);
        return Arrays.equals(best, with) ? Optional.empty() : Optional.of(best);
    }

    /** The two touching wires that fit best, neither of them among those taken; all where fewer than two are left. */
    private static boolean[] bestPair(SubsetClimb climb, boolean[] taken) {
        List<boolean[]> pairs = new ArrayList<>();
        for (int i = 0; i < taken.length; i++)
            for (int j = i + 1; j < taken.length; j++) {
                if (taken[i] || taken[j]) continue;
                boolean[] pair = new boolean[taken.length];
                pair[i] = true;
                pair[j] = true;
                pairs.add(pair);
            }
        climb.prepare(pairs);
        boolean[] best = all(taken.length);
        double most = Double.NEGATIVE_INFINITY;
        for (boolean[] pair : pairs) {
            double score = climb.score(pair);
            if (score <= most) continue;
            most = score;
            best = pair;
        }
        return best;
    }

    static boolean[] all(int n) {
        boolean[] out = new boolean[n];
        Arrays.fill(out, true);
        return out;
    }

    /** Wires that touch each other in a chain. */
    static List<Edit> bridges(List<Hypothesis.Hit> hits) {
        List<Edit> out = new ArrayList<>();
        for (int i = 1; i < hits.size(); i++)
            out.add(new Edit.Bridge(hits.get(i - 1).point(), hits.get(i).point(), Edit.SHORT_OHMS));
        return out;
    }
}
