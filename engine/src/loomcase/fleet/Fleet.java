package loomcase.fleet;

import java.io.IOException;
import java.util.Iterator;
import java.util.Optional;
import java.util.function.LongConsumer;
import java.util.function.Supplier;
import java.util.stream.Stream;
import loomcase.Crew;
import loomcase.InputProblem;
import loomcase.casework.Answer;
import loomcase.casework.Casework;
import loomcase.json.BriefJson;
import loomcase.json.FleetJson;
import loomcase.json.JsonText;
import loomcase.json.RankJson;

/**
 * Entry of this stage: answers a list of cases on several cores.
 *
 * <pre>{@code
 * Fleet fleet = new Fleet(2, false, () -> new Casework(Shop.BUILT_IN));
 * Fleet.Counts counts = fleet.run(lines.iterator(), 0, out, done -> {});
 * }</pre>
 *
 * <p>An answer is {@code {"n": 7, "id": …, "answer": …}}, the answer in the form of {@link RankJson} or, when brief, of {@link
 * BriefJson}; n is the number of the case in the list, from 1. A case that cannot be answered gives {@code {"n": 7, "error":
 * …}}. Each is one line, written whole and in order, so a run that was stopped is taken up by giving the number of lines
 * written so far.
 *
 * @param workers how many cases are answered at once
 * @param brief whether only the first suspects are wanted; no test is planned then, which saves most of the time
 * @param desk makes a worker's circuits; called once for each worker
 */
public record Fleet(int workers, boolean brief, Supplier<Casework> desk) {
    /** Cases under way for each worker: enough that none waits while a slow one holds up the order. */
    private static final int AHEAD = 16;

    /**
     * How a run ended.
     *
     * @param answered cases answered
     * @param failed cases that could not be
     */
    public record Counts(long answered, long failed) {}

    private record Done(String text, boolean failed) {}

    public Fleet {
        if (workers < 1) throw new IllegalArgumentException("a fleet needs a worker, not " + workers);
    }

    /**
     * Answers cases in order.
     *
     * @param cases the whole list
     * @param skip how many of its first cases have been answered before
     * @param out where lines go; flushed after each
     * @param progress told after each line how many cases are done, those skipped included
     * @throws IOException when a line cannot be written
     * @throws InputProblem when the list itself cannot be read any further
     */
    public Counts run(Iterator<FleetSource.Case> cases, long skip, Appendable out, LongConsumer progress)
            throws IOException {
        long passed = 0;
        while (passed < skip && cases.hasNext()) {
            cases.next();
            passed++;
        }
        if (passed < skip)
            throw new InputProblem(skip + " cases were answered before, but the list has only " + passed
                    + "; is it the list that the answers are of?");
        long failed = 0;
        long written = 0;
        try (Crew<Casework> crew =
                new Crew<>(Stream.generate(desk).limit(workers).toList())) {
            Iterator<Done> answers = crew.inOrder(
                    new Numbered(cases, skip), AHEAD, (casework, each) -> answer(each.n, each.asked, casework));
            while (answers.hasNext()) {
                Done done = answers.next();
                out.append(done.text).append('\n');
                if (out instanceof java.io.Flushable f) f.flush();
                written++;
                if (done.failed) failed++;
                progress.accept(skip + written);
            }
        }
        return new Counts(written - failed, failed);
    }

    private record One(long n, FleetSource.Case asked) {}

    /** Cases with their numbers in the list. */
    private static final class Numbered implements Iterator<One> {
        private final Iterator<FleetSource.Case> cases;
        private long n;

        /** @param before how many stood before them */
        Numbered(Iterator<FleetSource.Case> cases, long before) {
            this.cases = cases;
            this.n = before;
        }

        @Override
        public boolean hasNext() {
            return cases.hasNext();
        }

        @Override
        public One next() {
            return new One(++n, cases.next());
        }
    }

    private Done answer(long n, FleetSource.Case asked, Casework casework) {
        Optional<String> id = Optional.empty();
        try {
            FleetLine.Asked read = asked.ask(casework);
            id = read.id();
            return new Done(FleetJson.answer(n, id, json(read.answer())).line(), false);
        } catch (InputProblem e) {
            return failed(n, id, e.getMessage());
        } catch (RuntimeException e) {
            // One case that trips the program must not take the night's run with it.
            return failed(n, id, asked.where() + ": a fault in Loomcase itself: " + e);
        }
    }

    private static Done failed(long n, Optional<String> id, String why) {
        return new Done(FleetJson.error(n, id, why).line(), true);
    }

    private JsonText json(Answer answer) {
        return brief ? BriefJson.of(answer) : RankJson.of(answer);
    }
}
