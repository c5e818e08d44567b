package loomcase.study;

import java.util.List;
import java.util.function.Function;
import loomcase.Once;
import loomcase.casework.Bench;
import loomcase.rank.Ranker;

/**
 * Draws and works cases with networks, predictions and a control unit of its own, made on first use. Every case has its own
 * seed, so which worker has it makes no difference. One thread at a time.
 */
final class Worker {
    private final Bench bench;
    private final Once<Cases> cases;
    private final Once<Play> play;

    Worker(Bench bench, List<String> points, World world, long seed) {
        this.bench = bench;
        this.cases = new Once<>(() -> new Cases(bench, points, world, seed));
        this.play = new Once<>(() -> new Play(bench, cases().replies()));
    }

    /** The cases of the study. */
    Cases cases() {
        return cases.get();
    }

    /** Works them through. */
    Play play() {
        return play.get();
    }

    /** Does something with the worker's own ranker. */
    <R> R with(Function<Ranker, R> part) {
        return bench.solving(part);
    }
}
