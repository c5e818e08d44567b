package loomcase.study;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.DoubleConsumer;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import loomcase.Crew;
import loomcase.casework.Bench;
import loomcase.rank.Ranker;
import loomcase.rank.Ranking;

/**
 * Entry of this package: plants faults in a world that differs from what the engine assumes, lets the control unit show its
 * codes, ranks them and scores the ranking; then works the first cases of each kind through to the right repair.
 *
 * <p>Every third case gets its voltages from ngspice, the others from our solver without its shortcuts. A case of
 * which no code is read, or whose network has no single operating point, is counted and left out. Cases are worked on by
 * several workers at once; the result is the same for any number of them.
 */
public final class Study {
    /** Cases drawn for each one wanted before the rest is given up: on some harnesses a kind shows hardly any code. */
    private static final int MOST_DRAWN = 5;

    /** Cases under way for each worker and kind: enough that none waits. */
    private static final int AHEAD = 2;

    private final List<Worker> workers;

    /**
     * @param benches the engine under study, once for each worker
     * @param points ids of the operating points at which codes are read
     * @param world how the truth differs from what the engine assumes
     * @param seed same seed, same cases on any machine
     */
    public Study(List<Bench> benches, List<String> points, World world, long seed) {
        if (benches.isEmpty()) throw new IllegalArgumentException("a study needs a worker");
        this.workers =
                benches.stream().map(b -> new Worker(b, points, world, seed)).toList();
    }

    /**
     * How much is done of each kind.
     *
     * @param ranked cases that show codes
     * @param worked how many of them, the first ones, are worked through to the right repair
     */
    public record Size(int ranked, int worked) {
        public Size {
            if (ranked < 1 || worked < 0 || worked > ranked)
                throw new IllegalArgumentException(worked + " worked through of " + ranked + " ranked");
        }
    }

    /** A case to be ranked and scored, and whether it is worked through as well. */
    private record Asked(Cases.Case one, boolean through) {}

    /** What came of it. */
    private record Done(Score score, boolean simulated, Optional<Map<Working, Worked>> worked) {}

    private static Done work(Worker worker, Asked asked) {
        return worker.with(ranker -> work(worker, ranker, asked));
    }

    private static Done work(Worker worker, Ranker ranker, Asked asked) {
        Cases.Case one = asked.one;
        Ranking ranking = ranker.rank(one.evidence().orElseThrow(), share -> {});
        return new Done(
                Score.of(ranking, one.planted().truth(), worker.cases().sizes()::same),
                one.simulated(),
                asked.through ? Optional.of(worker.play().all(one, ranking, ranker)) : Optional.empty());
    }

    private static Outcome run(Crew<Worker> workers, Planted.Kind kind, Size size, Progress progress) {
        int dozens = MOST_DRAWN * size.ranked / Cases.CHUNK + 1;
        Iterator<List<Cases.Case>> drawn = workers.inOrder(
                IntStream.range(0, dozens).iterator(),
                1,
                (worker, n) -> worker.with(ranker -> worker.cases().dozen(kind, n)));
        Showing showing = new Showing(drawn, size);
        List<Done> done = new ArrayList<>();
        workers.inOrder(showing, AHEAD, Study::work).forEachRemaining(d -> {
            done.add(d);
            progress.add(d.worked.isPresent());
        });
        List<Map<Working, Worked>> worked =
                done.stream().flatMap(d -> d.worked.stream()).toList();
        int workedSimulated = (int)
                done.stream().filter(d -> d.worked.isPresent() && d.simulated).count();
        return new Outcome(
                kind,
                done.stream().map(Done::score).toList(),
                showing.silent,
                showing.unsolved,
                (int) done.stream().filter(Done::simulated).count(),
                worked.isEmpty() ? Optional.empty() : Optional.of(RepairResult.of(worked, workedSimulated)));
    }

    /** The cases that show codes, as many as are wanted; those passed over are counted. */
    private static final class Showing implements Iterator<Asked> {
        private final Iterator<List<Cases.Case>> dozens;
        private final Size size;
        private Iterator<Cases.Case> dozen = List.<Cases.Case>of().iterator();
        private Optional<Cases.Case> next = Optional.empty();
        private int found;
        private int silent;
        private int unsolved;

        Showing(Iterator<List<Cases.Case>> dozens, Size size) {
            this.dozens = dozens;
            this.size = size;
        }

        @Override
        public boolean hasNext() {
            while (next.isEmpty() && found < size.ranked) {
                if (dozen.hasNext()) look(dozen.next());
                else if (dozens.hasNext()) dozen = dozens.next().iterator();
                else break;
            }
            return next.isPresent();
        }

        private void look(Cases.Case one) {
            if (one.evidence().isEmpty()) unsolved++;
            else if (!one.shows()) silent++;
            else {
                next = Optional.of(one);
                found++;
            }
        }

        @Override
        public Asked next() {
            if (!hasNext()) throw new java.util.NoSuchElementException("no case is left");
            Asked out = new Asked(next.orElseThrow(), found <= size.worked);
            next = Optional.empty();
            return out;
        }
    }

    /**
     * What cases of one kind gave.
     *
     * @param kind how they were drawn
     * @param scores one for each case
     * @param silent cases drawn of which no code was read
     * @param unsolved cases whose network has no single operating point
     * @param simulated cases whose voltages came from ngspice
     * @param repair what those worked through gave, empty when none was
     */
    record Outcome(
            Planted.Kind kind,
            List<Score> scores,
            int silent,
            int unsolved,
            int simulated,
            Optional<RepairResult> repair) {}

    /**
     * Runs cases of some kinds, all kinds at once.
     *
     * @param progress told the share done, by one thread at a time
     */
    List<Outcome> run(List<Planted.Kind> kinds, Size size, DoubleConsumer progress) {
        Progress told = new Progress(kinds.size(), size, progress);
        ExecutorService each = Executors.newFixedThreadPool(kinds.size());
        try (Crew<Worker> all = new Crew<>(workers)) {
            List<Future<Outcome>> running = kinds.stream()
                    .map(k -> each.submit(() -> run(all, k, size, told)))
                    .toList();
            return running.stream().map(Crew::got).toList();
        } finally {
            each.shutdownNow();
        }
    }

    /** Ids of the kinds of cases there are. */
    public static List<String> kinds() {
        return Stream.of(Planted.Kind.values()).map(k -> k.id).toList();
    }

    /**
     * Runs some kinds, in the order of {@link #kinds()}; the cases of a kind are the same whatever others are run.
     *
     * @param ids some of {@link #kinds()}, at least one
     */
    public List<KindResult> run(Set<String> ids, Size eachKind, DoubleConsumer progress) {
        List<Planted.Kind> wanted =
                Stream.of(Planted.Kind.values()).filter(k -> ids.contains(k.id)).toList();
        return run(wanted, eachKind, progress).stream().map(KindResult::of).toList();
    }

    /** Runs lasting single faults drawn from the priors only. */
    public KindResult runSingle(Size size, DoubleConsumer progress) {
        return KindResult.of(run(List.of(Planted.Kind.SINGLE), size, progress).get(0));
    }
}
