package loomcase.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.intake.CaseIntake;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.meter.Test;
import loomcase.model.PlaceId;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;

/**
 * A run beside what the planner would have done.
 *
 * @param student who played
 * @param ending how it ended
 * @param truth what was wrong
 * @param first probability that the first codes alone gave the true place
 * @param steps what was done
 * @param bill what the student used up
 * @param planner the planner's play of the same drill
 * @param marks for safety
 * @param notGiven lines that the bench would not have answered so: somebody else wrote them
 */
public record Debrief(
        String student,
        Ending ending,
        List<Planted> truth,
        double first,
        List<Step> steps,
        Bill bill,
        Played planner,
        List<Mark> marks,
        List<Integer> notGiven) {

    /**
     * One thing done.
     *
     * @param line line of the run
     * @param words what was done, and for a test what it gave
     * @param bill what it took
     * @param probability probability of the true place after it
     * @param could what the test could have told, empty when it was none
     * @param lost why its minutes count as lost, empty when they do not
     */
    public record Step(
            int line, String words, Bill bill, double probability, Optional<Foresight> could, Optional<Loss> lost) {}

    /** Why minutes were lost. */
    public enum Loss {
        LITTLE_TO_TELL("a test that could tell little and told little"),
        WRONG_PLACE("work where nothing was wrong"),
        HARM("harm done"),
        HINT("a hint");

        private final String words;

        Loss(String words) {
            this.words = words;
        }

        /** In plain words. */
        public String words() {
            return words;
        }
    }

    /** Below this many expected bits a test could tell little (judgement). */
    public static final double LITTLE_BITS = 0.1;

    /** A test that raised the probability of the true place by more than this did tell something, by luck or not. */
    private static final double TOLD = 0.05;

    public Debrief {
        truth = List.copyOf(truth);
        steps = List.copyOf(steps);
        marks = List.copyOf(marks);
        notGiven = List.copyOf(notGiven);
    }

    /** Minutes and parts lost for one reason. */
    public Bill lost(Loss loss) {
        return steps.stream()
                .filter(s -> s.lost().equals(Optional.of(loss)))
                .map(Step::bill)
                .reduce(Bill.FREE, Bill::plus);
    }

    /** Minutes lost, all steps together. */
    public double lostMinutes() {
        return steps.stream()
                .filter(s -> s.lost().isPresent())
                .mapToDouble(s -> s.bill().minutes())
                .sum();
    }

    /**
     * Debriefs a run that is over.
     *
     * @throws InputProblem when it still goes on, for this names what is wrong
     */
    public static Debrief of(RunFile file) {
        Ending ending = file.run()
                .ending()
                .orElseThrow(() ->
                        new InputProblem(file.file() + ": the run is not over; claim, or give up, and then debrief"));
        return new Maker(file).make(ending);
    }

    /** Makes a debrief: replays the run, ranking after each line. */
    private static final class Maker {
        private final RunFile file;
        private final Bench bench;
        private final Workshop shop;
        private final List<Entry> entries;

        Maker(RunFile file) {
            this.file = file;
            this.bench = file.bench();
            this.shop = file.workshop();
            this.entries = file.journal().entries();
        }

        Debrief make(Ending ending) {
            List<Step> steps = new ArrayList<>();
            List<Integer> notGiven = new ArrayList<>();
            Run before = Run.start(shop.engine(), file.drill().drill());
            Ranking ranking = ranking(Run.FIRST_LINES);
            double first = probability(ranking);
            for (Run.Step s : file.run().steps()) {
                if (!given(before, s)) notGiven.add(s.line());
                Optional<Test> test =
                        CaseIntake.tested(bench.circuit(), s.fact()).map(Evidence.Tested::test);
                Ranking at = ranking;
                Optional<Foresight> could = test.map(t -> foresight(t, at, s.line() - 1));
                boolean broken =
                        before.faults().size() < shop.engine().planted().size();
                if (test.isPresent() && !broken) ranking = ranking(s.line());
                Run after = before.after(shop, s.line(), s.fact());
                boolean told = probability(ranking) > probability(at) + TOLD;
                Optional<Loss> lost = lost(before, after, s, told ? Optional.empty() : could);
                steps.add(new Step(s.line(), RunNote.words(s.fact()), s.bill(), probability(ranking), could, lost));
                before = after;
            }
            Played planner = new Solver(bench)
                    .play(file.drill().truth(), file.drill().drill().first());
            String student = entries.get(0).stamp().by();
            return new Debrief(
                    student,
                    ending,
                    shop.engine().planted(),
                    first,
                    steps,
                    file.run().bill(),
                    planner,
                    file.run().marks(),
                    notGiven);
        }

        private Ranking ranking(int lines) {
            return bench.answer(intake(lines).intake()).ranking();
        }

        private CaseIntake intake(int lines) {
            return CaseIntake.of(bench.circuit(), new Journal(entries.subList(0, lines), List.of()));
        }

        private double probability(Ranking ranking) {
            return shop.engine().planted().stream()
                    .mapToDouble(p -> Math.min(1, Places.share(ranking, p)))
                    .min()
                    .orElse(0);
        }

        private Foresight foresight(Test test, Ranking ranking, int lines) {
            Evidence evidence = intake(lines).intake().evidence();
            return bench.solving(ranker -> Foresight.of(test, ranking, ranker.meter(evidence)));
        }

        private boolean given(Run before, Run.Step s) {
            Optional<Request> request = shop.request(s.fact());
            if (request.isEmpty()) return s.fact() instanceof Fact.Note;
            try {
                Run open = new Run(
                        before.steps(),
                        before.bill(),
                        before.open(),
                        before.faults(),
                        before.memory(),
                        before.hints(),
                        Optional.empty());
                return shop.answer(open, request.get(), s.line()).equals(s.fact());
            } catch (InputProblem e) {
                return false;
            }
        }

        private static Optional<Loss> lost(Run before, Run after, Run.Step s, Optional<Foresight> could) {
            if (s.marks().stream().anyMatch(m -> m.bill().minutes() > 0)) return Optional.of(Loss.HARM);
            if (RunNote.isHint(s.fact())) return Optional.of(Loss.HINT);
            if (could.isPresent() && could.get().bits() < LITTLE_BITS) return Optional.of(Loss.LITTLE_TO_TELL);
            boolean idle = s.fact() instanceof Fact.Work w
                    && w.spot().isPresent()
                    && after.faults().size() == before.faults().size();
            return idle ? Optional.of(Loss.WRONG_PLACE) : Optional.empty();
        }
    }

    /** Places that are wrong, for a headline. */
    public List<PlaceId> places() {
        return truth.stream().map(Planted::place).toList();
    }

    /** Student's minutes over the planner's; empty when the planner took none. */
    public OptionalDouble ratio() {
        return planner.bill().minutes() > 0
                ? OptionalDouble.of(bill.minutes() / planner.bill().minutes())
                : OptionalDouble.empty();
    }
}
