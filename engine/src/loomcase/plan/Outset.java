package loomcase.plan;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import loomcase.meter.Outcomes;
import loomcase.rank.Ranking;

/** Tests weighed from where a case stands: a ranking made into a decision, and what is open. */
final class Outset {
    private static final int DEPTH = 1;

    private final Prepared p;
    private final Collection<String> open;
    private final BitSet opened;
    private final Lookahead lookahead;
    private final double settle;

    /**
     * @param open ids of the access steps that are open
     * @param opened their numbers in the decision
     */
    Outset(Prepared prepared, Collection<String> open, BitSet opened) {
        this.p = prepared;
        this.open = open;
        this.opened = opened;
        this.lookahead = new Lookahead(p.decision());
        this.settle = lookahead.settle(p.decision().weight(), opened);
    }

    /** False where one hypothesis is left, so that there is nothing to be parted. */
    boolean parts() {
        return p.left().size() > 1;
    }

    /** Tests that save minutes, best first. */
    List<NextTest> paying() {
        if (!parts()) return List.of();
        return lookahead.all(p.decision().weight(), opened, DEPTH).stream()
                .filter(c -> c.expectedMinutes() < settle - 1e-9)
                .map(this::proposal)
                .toList();
    }

    /** The test with the least expected minutes, whether or not it saves any. */
    Optional<NextTest> quickest() {
        return p.decision().tests().stream()
                .map(this::first)
                .min(Comparator.comparingDouble(Lookahead.Choice::expectedMinutes))
                .map(this::proposal);
    }

    /**
     * The test that a way of choosing takes; empty where none saves minutes, but for a gauge that is owed.
     *
     * @param paying as {@link #paying} gives them
     */
    Optional<NextTest> next(Way way, List<NextTest> paying) {
        if (way == Way.PLANNER) return withGauge(paying).stream().findFirst();
        return paying.isEmpty()
                ? Optional.empty()
                : way.choose(p).map(this::first).map(this::proposal);
    }

    /**
     * A condition of the engine that leads is seen by an instrument of its own, one of its supply by a voltmeter, before anybody
     * acts on it, whether or not that saves minutes: what is done about it, or left undone, is no work on the harness and not
     * reckoned here (common practice, no source).
     *
     * @param paying as {@link #paying} gives them
     */
    List<NextTest> withGauge(List<NextTest> paying) {
        Optional<String> owed = p.leadingCondition();
        if (owed.isEmpty()
                || paying.stream().limit(1).anyMatch(t -> t.test().id().equals(owed.get()))) return paying;
        List<NextTest> out = new ArrayList<>();
        p.decision().tests().stream().filter(t -> t.id().equals(owed.get())).forEach(t -> out.add(proposal(first(t))));
        paying.stream().filter(t -> !t.test().id().equals(owed.get())).forEach(out::add);
        return out;
    }

    private Lookahead.Choice first(Decision.Test t) {
        return lookahead.first(p.decision().weight(), opened, t, DEPTH);
    }

    private NextTest proposal(Lookahead.Choice choice) {
        Decision.Test chosen = choice.test().orElseThrow();
        Prepared.Tried tried = p.tests().get(chosen.id());
        return new NextTest(
                tried.test(),
                p.decision().minutes(chosen, opened),
                choice.expectedMinutes(),
                settle,
                tried.closed(open),
                tried.outcomes().stream().map(o -> outcome(o, p.left())).toList(),
                List.copyOf(tried.facts().harms()),
                tried.facts().hazard());
    }

    private static NextTest.Outcome outcome(Outcomes.Likely o, List<Ranking.Member> left) {
        double total = 0;
        double most = -1;
        int best = 0;
        for (int h = 0; h < left.size(); h++) {
            double w = left.get(h).probability() * o.given().get(h);
            total += w;
            if (w <= most) continue;
            most = w;
            best = h;
        }
        return new NextTest.Outcome(
                o.outcome().words(),
                Math.min(1, o.probability()),
                left.get(best).words(),
                total == 0 ? 0 : most / total);
    }
}
