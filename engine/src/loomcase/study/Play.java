package loomcase.study;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.casework.Advice;
import loomcase.casework.Bench;
import loomcase.intake.CaseIntake;
import loomcase.intake.Intake;
import loomcase.journal.Fact;
import loomcase.journal.Finding;
import loomcase.journal.Spot;
import loomcase.meter.Outcome;
import loomcase.meter.Outcomes;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.model.Access;
import loomcase.model.Circuit;
import loomcase.model.PlaceId;
import loomcase.plan.NextTest;
import loomcase.plan.Planner;
import loomcase.plan.Way;
import loomcase.rank.Evidence;
import loomcase.rank.Ranker;
import loomcase.rank.Ranking;
import loomcase.verdict.Hindsight;
import loomcase.verdict.Rates;
import loomcase.verdict.RepairCosts;
import loomcase.verdict.Situation;
import loomcase.verdict.VerdictMaker;

/** Works through cases: codes, tests until none is worth its minutes, then the verdict's cheapest remedy. */
final class Play {
    private static final int MOST_TESTS = 15;

    private final Circuit circuit;
    private final Replies replies;
    private final Planner planner;
    private final VerdictMaker verdicts;
    private final Access access;
    private final double closing;
    private final double deviceMinutes;
    private final Rates rates;

    Play(Bench bench, Replies replies) {
        this.circuit = bench.circuit();
        this.replies = replies;
        this.planner = bench.planner();
        this.verdicts = bench.verdicts(Advice.USUAL);
        this.access = new Access(circuit);
        this.rates = VerdictMaker.rates(circuit);
        Map<String, RepairCosts.Range> figures = RepairCosts.builtIn().ranges();
        this.closing = figures.get("share.closing").mean();
        this.deviceMinutes = figures.get("minutes.device").mean()
                + figures.get("minutes.check").mean();
    }

    /**
     * Works through a case in every way.
     *
     * @param one a case with codes
     * @param ranking suspects from its codes
     * @param ranker ranks them anew after each test
     */
    Map<Working, Worked> all(Cases.Case one, Ranking ranking, Ranker ranker) {
        Evidence codes = one.evidence().orElseThrow();
        List<Ranking.Member> truth =
                one.planted().faults().stream().map(Play::known).toList();
        boolean needed = verdicts.hindsight(Situation.codesOnly(ranking), truth).harnessNeeded();
        Map<Way, NextTest> first = planner.next(Set.of(Way.values()), ranking, ranker.meter(codes), Set.of(), Set.of());
        Map<Working, Worked> out = new EnumMap<>(Working.class);
        for (Working way : Working.values())
            out.put(way, new Game(one, way, ranker, ranking, truth, needed).play(first));
        return out;
    }

    private static Ranking.Member known(loomcase.drill.Planted p) {
        Subject subject = new Subject(p.family(), p.places(), p.showing() != loomcase.drill.Showing.ALWAYS, p.edits());
        return new Ranking.Member(p.id(), p.words(), p.place(), 1, p.edits(), subject);
    }

    /** One case in one way. */
    private final class Game {
        private final Cases.Case one;
        private final Working way;
        private final Ranker ranker;
        private final List<Ranking.Member> truth;
        private final boolean needed;
        private final List<loomcase.drill.Planted> left;
        private final Set<String> open = new LinkedHashSet<>();
        private final Set<String> done = new HashSet<>();
        private final Set<PlaceId> fresh = new LinkedHashSet<>();
        private final List<Fact.Seen> looked = new ArrayList<>();
        private Evidence evidence;
        private Ranking ranking;
        private int tests;
        private double minutes;
        private double parts;

        Game(Cases.Case one, Working way, Ranker ranker, Ranking ranking, List<Ranking.Member> truth, boolean needed) {
            this.one = one;
            this.way = way;
            this.ranker = ranker;
            this.ranking = ranking;
            this.truth = truth;
            this.needed = needed;
            this.left = new ArrayList<>(one.planted().faults());
            this.evidence = one.evidence().orElseThrow();
        }

        Worked play(Map<Way, NextTest> first) {
            Optional<Worked.Ruled> codes = Optional.empty();
            Optional<NextTest> next = Optional.ofNullable(first.get(way.tests()));
            if (way == Working.PLANNER) {
                VerdictMaker.Choice early = choose(next);
                codes = Optional.of(ruled(early, hindsight().of(early.leading())));
            }
            if (way.sensorsFirst()) {
                for (PlaceId device : devices()) {
                    renew(device);
                    if (left.isEmpty()) return mended();
                }
                ranking = NewParts.without(ranking, fresh);
                next = next();
            }
            while (next.isPresent() && tests < MOST_TESTS) {
                take(next.get());
                next = next();
            }
            VerdictMaker.Choice choice = choose(next);
            Hindsight.Outcome end = hindsight().of(choice.leading());
            return new Worked(
                    tests,
                    minutes + end.minutes(),
                    money() + end.money(),
                    end.mends(),
                    codes,
                    Optional.of(ruled(choice, end)),
                    needed);
        }

        private Optional<NextTest> next() {
            return Optional.ofNullable(planner.next(Set.of(way.tests()), ranking, ranker.meter(evidence), open, done)
                    .get(way.tests()));
        }

        /** Opening is paid here, closing with the repair, which closes all that is open. */
        private void opened(Set<String> steps, double work) {
            minutes += work + (1 - closing) * access.minutes(steps, open);
            open.addAll(steps);
        }

        private void take(NextTest next) {
            Set<String> steps = new LinkedHashSet<>(next.steps());
            opened(steps, next.minutes() - access.minutes(steps, open));
            Outcome outcome = replies.to(next.test(), one, left);
            tests++;
            done.add(next.test().id());
            if (next.test() instanceof Test.Look look) looked.add(seen(look, outcome));
            List<Evidence.Tested> tested = new ArrayList<>(evidence.tested());
            tested.add(new Evidence.Tested(next.test(), outcome));
            evidence = new Evidence(evidence.codes(), evidence.operatingPoints(), tested);
            ranking = NewParts.without(ranker.rank(evidence, share -> {}), fresh);
        }

        private Fact.Seen seen(Test.Look look, Outcome outcome) {
            boolean found = outcome.equals(new Outcome.Noticed(Outcome.Sign.FOUND));
            Finding finding = found ? replies.finding(look, one, left) : Finding.CLEAN;
            return new Fact.Seen(new Spot(look.place(), Optional.empty()), finding, "");
        }

        /** Devices that the codes name, in the order of the codes. */
        private Set<PlaceId> devices() {
            Set<PlaceId> out = new LinkedHashSet<>();
            for (Evidence.Seen c : evidence.codes())
                circuit.watches().stream()
                        .filter(w -> w.spn() == c.code().spn() && !w.device().isEmpty())
                        .forEach(w -> out.add(new PlaceId(PlaceId.Kind.DEVICE, w.device())));
            return out;
        }

        private void renew(PlaceId device) {
            opened(access.steps(device), deviceMinutes);
            parts += circuit.costs()
                    .deviceParts()
                    .getOrDefault(device.id(), java.math.BigDecimal.ZERO)
                    .doubleValue();
            tests++;
            fresh.add(device);
            left.removeIf(p -> p.place().equals(device));
        }

        private Worked mended() {
            minutes += closing * access.minutes(open, Set.of());
            return new Worked(tests, minutes, money(), tests == 1, Optional.empty(), Optional.empty(), needed);
        }

        private double money() {
            return minutes / 60 * (rates.labourPerHour() + rates.downtimePerHour()) + parts;
        }

        private Situation situation() {
            CaseIntake intake = new CaseIntake(new Intake(evidence, List.of()), open, Set.of(), looked, List.of());
            return Advice.situation(circuit, intake, ranking);
        }

        private VerdictMaker.Choice choose(Optional<NextTest> next) {
            return verdicts.choose(
                    situation(),
                    next.stream().toList(),
                    (test, subjects, weights) -> ranker.meter(evidence).outcomes(test, subjects, weights).stream()
                            .map(Outcomes.Likely::given)
                            .toList());
        }

        private Hindsight hindsight() {
            List<Ranking.Member> still = truth.stream()
                    .filter(m -> left.stream().anyMatch(p -> p.id().equals(m.id())))
                    .toList();
            return verdicts.hindsight(situation(), still);
        }
    }

    private static Worked.Ruled ruled(VerdictMaker.Choice choice, Hindsight.Outcome end) {
        return new Worked.Ruled(choice.option(), choice.settled(), end.mends());
    }
}
