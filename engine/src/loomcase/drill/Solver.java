package loomcase.drill;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import loomcase.casework.Bench;
import loomcase.journal.Fact;
import loomcase.meter.Outcome;
import loomcase.model.Access;
import loomcase.model.PlaceId;
import loomcase.plan.CaseSoFar;
import loomcase.plan.NextTest;
import loomcase.plan.Planner;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;

/**
 * The planner plays a drill: it sees the first codes and the outcomes of the tests that it proposes, nothing else.
 *
 * <p>It takes its first proposal until none pays, opening access on the way. Then it works down its places: access, repair,
 * codes read again; until everything planted is mended or {@value #MOST_PLACES} places were worked at. An engine condition is
 * settled by naming it. Each test is taken once.
 *
 * <pre>{@code
 * Bench bench = new Casework(Shop.BUILT_IN).circuit(file);
 * Planter.Made made = new Planter(bench).draw(Difficulty.MEDIUM, seed);
 * Played played = new Solver(bench).play(made.truth(), made.first());
 * }</pre>
 */
public final class Solver {
    private static final int MOST_TESTS = 15;
    private static final int MOST_PLACES = 8;

    private final Bench bench;
    private final Access access;
    private final Repairs repairs;
    private final Planner planner;

    public Solver(Bench bench) {
        this.bench = bench;
        this.access = new Access(bench.circuit());
        this.repairs = new Repairs(bench.circuit(), bench.layout());
        this.planner = bench.planner();
    }

    /** The evidence that a drill starts from. */
    public static Evidence evidence(Fact.Codes first) {
        return new Evidence(
                first.codes().stream()
                        .map(c -> new Evidence.Seen(
                                c.code(), Evidence.State.valueOf(c.state().name()), c.count()))
                        .toList(),
                first.operatingPoints());
    }

    /** Plays a drill to its end. */
    public Played play(Truth truth, Fact.Codes first) {
        return bench.solving(ranker -> new Game(new Engine(bench, truth), evidence(first), ranker).play());
    }

    /** One drill being played. */
    private final class Game {
        private final Engine engine;
        private final loomcase.rank.Ranker ranker;
        private final List<Played.Move> moves = new ArrayList<>();
        private final Set<String> open = new LinkedHashSet<>();
        private final Set<String> done = new HashSet<>();
        private Evidence evidence;
        private Ranking ranking;
        private Bill bill = Bill.FREE;
        private double mending;

        Game(Engine engine, Evidence first, loomcase.rank.Ranker ranker) {
            this.engine = engine;
            this.evidence = first;
            this.ranker = ranker;
            this.ranking = ranker.rank(first, s -> {});
        }

        Played play() {
            int tests = 0;
            while (tests < MOST_TESTS) {
                List<NextTest> plan = planner.plan(new CaseSoFar(ranking, ranker.meter(evidence), open, done));
                if (plan.isEmpty()) break;
                take(plan.get(0), ++tests);
            }
            List<Planted> left = new ArrayList<>(engine.planted());
            List<PlaceId> named = new ArrayList<>();
            boolean rightFirst = false;
            for (PlaceId place : Places.best(ranking, MOST_PLACES)) {
                if (left.isEmpty()) break;
                named.add(place);
                boolean right = work(place, left);
                if (named.size() == 1) rightFirst = right;
            }
            return new Played(moves, bill, bill.minutes() - mending, tests, named, rightFirst, left.isEmpty());
        }

        private void take(NextTest next, int turn) {
            Outcome outcome = engine.answer(next.test(), engine.planted(), turn);
            done.add(next.test().id());
            open.addAll(next.steps());
            evidence = evidence.with(new Evidence.Tested(next.test(), outcome));
            ranking = ranker.rank(evidence, s -> {});
            add(next.test().words(), outcome.words(), Bill.of(next.minutes()));
        }

        /** Works at a place; true when that took a fault away. */
        private boolean work(PlaceId place, List<Planted> left) {
            Set<String> steps = access.steps(place);
            double way = access.minutes(steps, open);
            open.addAll(steps);
            Bill work = repairs.bill(Fact.Deed.REPAIRED, place, left);
            work = work.plus(Bill.of(Prices.PROOF_MINUTES));
            boolean right = left.removeIf(p -> place.kind() == PlaceId.Kind.ENGINE
                    ? p.place().equals(place)
                    : repairs.mends(Fact.Deed.REPAIRED, place, p));
            if (right) mending += work.minutes();
            String did = place.kind() == PlaceId.Kind.ENGINE ? "name the engine condition " : "repair ";
            add(did + place, right ? "codes stay away" : "codes come back", work.plus(Bill.of(way)));
            return right;
        }

        private void add(String words, String result, Bill took) {
            bill = bill.plus(took);
            double least = engine.planted().stream()
                    .mapToDouble(p -> Places.share(ranking, p))
                    .min()
                    .orElse(0);
            moves.add(new Played.Move(words, result, took, Math.min(1, least)));
        }
    }
}
