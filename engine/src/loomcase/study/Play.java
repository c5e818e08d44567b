package loomcase.study;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import loomcase.casework.Advice;
import loomcase.casework.Bench;
import loomcase.faults.Hypothesis;
import loomcase.faults.WorkDone;
import loomcase.intake.CaseIntake;
import loomcase.intake.Intake;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import loomcase.meter.Outcome;
import loomcase.meter.Outcomes;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.model.Access;
import loomcase.model.Circuit;
import loomcase.model.PlaceId;
import loomcase.plan.CaseSoFar;
import loomcase.plan.NextTest;
import loomcase.plan.Planner;
import loomcase.plan.Way;
import loomcase.rank.Evidence;
import loomcase.rank.Ranker;
import loomcase.rank.Ranking;
import loomcase.verdict.Handiwork;
import loomcase.verdict.HarnessNeed;
import loomcase.verdict.Hindsight;
import loomcase.verdict.Rates;
import loomcase.verdict.Remedy;
import loomcase.verdict.RepairCosts;
import loomcase.verdict.Situation;
import loomcase.verdict.VerdictMaker;

/**
 * Works through cases: codes, tests until none is worth its minutes, then the verdict's cheapest remedy and the check run.
 * Where that shows a code again the same visit goes on with what it shows; where a fault is left and shows none, the engine
 * comes back.
 */
final class Play {
    private static final int MOST_TESTS = 15;

    /** Repairs in one visit; a fault that is left then is charged a comeback. */
    private static final int MOST_REPAIRS = 4;

    private final Circuit circuit;
    private final Replies replies;
    private final Planner planner;
    private final VerdictMaker makes;
    private final Access access;
    private final Handiwork handiwork;
    private final double closing;
    private final double loomMinutes;
    private final double deviceMinutes;
    private final Rates rates;

    Play(Bench bench, Replies replies) {
        this.circuit = bench.circuit();
        this.replies = replies;
        this.planner = bench.planner();
        this.makes = bench.verdicts(Advice.USUAL);
        this.access = new Access(circuit);
        this.handiwork = new Handiwork(circuit, bench.layout());
        this.rates = VerdictMaker.rates(circuit);
        Map<String, RepairCosts.Range> figures = RepairCosts.builtIn().ranges();
        this.closing = figures.get("share.closing").mean();
        this.loomMinutes = figures.get("minutes.loom").mean();
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
        HarnessNeed needed = makes.harnessNeed(Situation.codesOnly(ranking), truth);
        Situation start = situation(codes, Set.of(), List.of(), ranking);
        Map<Way, NextTest> first = planner.next(
                Set.of(Way.values()),
                new CaseSoFar(ranking, ranker.meter(codes), Set.of(), Set.of()),
                () -> makes.wantsATest(start));
        Map<Working, Worked> out = new EnumMap<>(Working.class);
        for (Working way : Working.values())
            out.put(way, new Game(one, way, ranker, ranking, truth, needed).play(first));
        return out;
    }

    private Situation situation(Evidence evidence, Set<String> open, List<Fact.Seen> looked, Ranking ranking) {
        CaseIntake intake = new CaseIntake(new Intake(evidence, List.of()), open, Set.of(), looked, List.of());
        return Advice.situation(circuit, intake, ranking);
    }

    private static Ranking.Member known(loomcase.drill.Planted p) {
        Subject subject = new Subject(p.family(), p.places(), p.showing() != loomcase.drill.Showing.ALWAYS, p.edits())
                .at(Hypothesis.rubPoint(p.id(), p.family()));
        return new Ranking.Member(p.id(), p.words(), p.place(), 1, p.edits(), subject);
    }

    /** One case in one way. */
    private final class Game {
        private final Cases.Case one;
        private final Working way;
        private final Ranker ranker;
        private final List<Ranking.Member> truth;
        private final HarnessNeed needed;
        private final List<loomcase.drill.Planted> left;
        private final Set<String> open = new LinkedHashSet<>();
        private final Set<String> done = new HashSet<>();
        private final List<Fact.Seen> looked = new ArrayList<>();
        private final List<Worked.Ruled> verdicts = new ArrayList<>();
        private Evidence evidence;
        private Ranking ranking;
        private int tests;
        private double minutes;
        private double money;

        Game(
                Cases.Case one,
                Working way,
                Ranker ranker,
                Ranking ranking,
                List<Ranking.Member> truth,
                HarnessNeed needed) {
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
            boolean back = false;
            if (way == Working.PLANNER) codes = Optional.of(ruledOnCodes());
            if (way.sensorsFirst()) {
                WorkDone work = WorkDone.NONE;
                for (PlaceId device : devices()) {
                    work = work.and(renew(device));
                    if (left.isEmpty()) return mended();
                }
                if (!work.isNone()) {
                    verdicts.add(new Worked.Ruled("device", true, false));
                    back = !goOn(work) && !comeBack(hindsight(), new boolean[left.size()]);
                }
                next = next();
            }
            while (!left.isEmpty() && !back) {
                while (next.isPresent() && tests < MOST_TESTS) {
                    take(next.get());
                    next = next();
                }
                back = !repair(choose(next.stream().toList()));
                if (!left.isEmpty() && !back) next = next();
            }
            return new Worked(tests, minutes, money, back, codes, verdicts, needed);
        }

        /**
         * Does what is cheapest, and looks whether it did.
         *
         * @return false when a fault is left and the engine leaves all the same, so that it comes back; that is charged
         */
        private boolean repair(VerdictMaker.Choice choice) {
            Hindsight hindsight = hindsight();
            boolean stopped = isStopped(choice.leading(), hindsight);
            verdicts.add(ruled(choice, hindsight, stopped));
            Optional<Remedy> done = choice.leading();
            if (stopped) {
                opened(new LinkedHashSet<>(done.orElseThrow().access()), loomMinutes);
                hindsight = hindsight();
                done = Optional.of(hindsight.harness());
            }
            boolean[] cured = hindsight.cured(done);
            if (done.isPresent()) pay(hindsight.of(done.get()));
            List<loomcase.drill.Planted> before = List.copyOf(left);
            for (int i = 0; i < cured.length; i++) if (cured[i]) left.remove(before.get(i));
            if (left.isEmpty()) return true;
            WorkDone work = done.map(handiwork::of).orElse(WorkDone.NONE);
            return !work.isNone() && verdicts.size() < MOST_REPAIRS && goOn(work) || comeBack(hindsight, cured);
        }

        /**
         * Whether the open loom shows more than the rules let anybody mend there: a repair that would mend what calls for the whole
         * harness by them.
         */
        private boolean isStopped(Optional<Remedy> chosen, Hindsight hindsight) {
            return chosen.filter(Remedy::isHarness).isEmpty() && onlyHarness(hindsight, hindsight.cured(chosen), true);
        }

        /** Whether the rules leave only the harness for one of the faults that are, or are not, cured. */
        private boolean onlyHarness(Hindsight hindsight, boolean[] cured, boolean which) {
            boolean[] byHarness = hindsight.cured(Optional.of(hindsight.harness()));
            return needed == HarnessNeed.RULES
                    && IntStream.range(0, cured.length).anyMatch(i -> cured[i] == which && byHarness[i]);
        }

        private boolean comeBack(Hindsight hindsight, boolean[] cured) {
            pay(onlyHarness(hindsight, cured, false) ? hindsight.comebackForHarness(cured) : hindsight.comeback(cured));
            return false;
        }

        /**
         * The check run after work that left a fault. Tests made before work that changed nothing still hold, but not those
         * that looked at or moved what was worked at.
         *
         * @return whether it shows a code, so that the visit goes on with it
         */
        private boolean goOn(WorkDone work) {
            List<Evidence.Seen> again = replies.checkRun(one, left, evidence.operatingPoints(), verdicts.size());
            if (again.isEmpty()) return false;
            Set<Integer> before = active(evidence.codes());
            boolean same = active(again).equals(before);
            boolean slipped = !before.containsAll(active(again));
            if (!same) {
                done.clear();
                looked.clear();
            }
            open.clear();
            List<Evidence.Tested> kept = evidence.tested().stream()
                    .filter(t -> same && !concerns(t.test(), work))
                    .toList();
            evidence = new Evidence(
                    again,
                    evidence.operatingPoints(),
                    kept,
                    evidence.work().and(slipped ? work : WorkDone.inVain(work.jobs())));
            ranking = ranker.rank(evidence, share -> {});
            return true;
        }

        private static boolean concerns(Test test, WorkDone work) {
            Optional<PlaceId> at = test instanceof Test.Look l
                    ? Optional.of(l.place())
                    : test instanceof Test.Wiggle w ? Optional.of(w.place()) : Optional.empty();
            return at.filter(p -> work.jobs().stream().anyMatch(j -> j.place().equals(p)))
                    .isPresent();
        }

        /** SPNs of the codes that are there. */
        private static Set<Integer> active(List<Evidence.Seen> codes) {
            return codes.stream()
                    .filter(c -> c.state() == Evidence.State.ACTIVE)
                    .map(c -> c.code().spn())
                    .collect(Collectors.toSet());
        }

        private void pay(Hindsight.Outcome o) {
            minutes += o.minutes();
            money += o.money();
        }

        /** Work and waiting, at the price of an hour. */
        private void spend(double more) {
            minutes += more;
            money += more / 60 * (rates.labourPerHour() + rates.downtimePerHour());
        }

        private CaseSoFar soFar() {
            return new CaseSoFar(ranking, ranker.meter(evidence), open, done);
        }

        private Optional<NextTest> next() {
            return Optional.ofNullable(planner.next(Set.of(way.tests()), soFar(), () -> makes.wantsATest(situation()))
                    .get(way.tests()));
        }

        /** Opening is paid here, closing with the repair, which closes all that is open. */
        private void opened(Set<String> steps, double work) {
            spend(work + (1 - closing) * access.minutes(steps, open));
            open.addAll(steps);
        }

        private void take(NextTest next) {
            Set<String> steps = new LinkedHashSet<>(next.steps());
            opened(steps, next.minutes() - access.minutes(steps, open));
            Outcome outcome = replies.to(next.test(), one, left);
            tests++;
            done.add(next.test().id());
            if (next.test() instanceof Test.Look look && outcome instanceof Outcome.Seen seen)
                looked.add(new Fact.Seen(new Spot(look.place(), Optional.empty()), seen.finding(), ""));
            evidence = evidence.with(new Evidence.Tested(next.test(), outcome));
            ranking = ranker.rank(evidence, share -> {});
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

        private WorkDone renew(PlaceId device) {
            opened(access.steps(device), deviceMinutes);
            money += circuit.costs()
                    .deviceParts()
                    .getOrDefault(device.id(), java.math.BigDecimal.ZERO)
                    .doubleValue();
            tests++;
            left.removeIf(p -> p.place().equals(device));
            return handiwork.renewed(device);
        }

        private Worked mended() {
            spend(closing * access.minutes(open, Set.of()));
            verdicts.add(new Worked.Ruled("device", true, tests == 1));
            return new Worked(tests, minutes, money, false, Optional.empty(), verdicts, needed);
        }

        private Situation situation() {
            return Play.this.situation(evidence, open, looked, ranking);
        }

        private VerdictMaker.Choice choose(List<NextTest> next) {
            return makes.choose(
                    situation(),
                    next,
                    (test, subjects, weights) -> ranker.meter(evidence).outcomes(test, subjects, weights).stream()
                            .map(Outcomes.Likely::given)
                            .toList());
        }

        private Worked.Ruled ruledOnCodes() {
            VerdictMaker.Choice choice = choose(planner.plan(soFar(), () -> makes.wantsATest(situation())));
            Hindsight hindsight = hindsight();
            return ruled(choice, hindsight, isStopped(choice.leading(), hindsight));
        }

        private Hindsight hindsight() {
            List<Ranking.Member> still = left.stream()
                    .flatMap(p -> truth.stream().filter(m -> m.id().equals(p.id())))
                    .toList();
            return makes.hindsight(situation(), still);
        }
    }

    /** @param stopped whether it would mend what the rules do not let anybody mend so */
    private static Worked.Ruled ruled(VerdictMaker.Choice choice, Hindsight hindsight, boolean stopped) {
        boolean mends = !stopped;
        for (boolean each : hindsight.cured(choice.leading())) mends &= each;
        return new Worked.Ruled(choice.option(), choice.settled(), mends);
    }
}
