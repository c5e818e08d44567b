package loomcase.web;

import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;
import java.util.function.Supplier;
import loomcase.casework.Answer;
import loomcase.casework.OpenCase;

/** Rankings and other long answers under way, one at a time of either sort, each with how far it is. */
final class Answers implements AutoCloseable {
    /** Answers that nobody came back for are dropped when there are more. */
    private static final int MOST_KEPT = 16;

    private final ExecutorService ranking = worker("ranking");
    private final ExecutorService advising = worker("advising");
    private final Map<String, Job<?>> jobs = new ConcurrentHashMap<>();

    private static ExecutorService worker(String name) {
        return Executors.newSingleThreadExecutor(r -> {
            Thread t = new Thread(r, name);
            t.setDaemon(true);
            return t;
        });
    }

    /** An answer under way. */
    private static final class Job<T> {
        private final CompletableFuture<T> done = new CompletableFuture<>();
        private volatile double share;

        void run(Supplier<T> work) {
            try {
                done.complete(work.get());
            } catch (RuntimeException | Error e) {
                done.completeExceptionally(e);
            }
        }
    }

    /**
     * The answer with ranking and plan made, if that is so within a time; it goes on being made otherwise.
     *
     * @param millis how long to wait
     * @throws loomcase.InputProblem when the case has no codes
     */
    Optional<Answer> within(OpenCase open, long millis) {
        return within(key(open), millis, ranking, job -> () -> {
            Answer answer = open.answer();
            answer.ranking(share -> job.share = share);
            answer.next();
            return answer;
        });
    }

    /**
     * Any other answer, in the same way; how far it is cannot be said.
     *
     * @param key the same for the same answer, and for no other
     * @throws RuntimeException that the work throws
     */
    <T> Optional<T> within(String key, long millis, Supplier<T> work) {
        return within(key, millis, advising, job -> work);
    }

    private <T> Optional<T> within(
            String key, long millis, ExecutorService worker, Function<Job<T>, Supplier<T>> work) {
        if (jobs.size() > MOST_KEPT) jobs.values().removeIf(j -> j.done.isDone());
        @SuppressWarnings("unchecked") // a key names one answer, and so its type
        Job<T> job = (Job<T>) jobs.computeIfAbsent(key, k -> {
            Job<T> fresh = new Job<>();
            worker.execute(() -> fresh.run(work.apply(fresh)));
            return fresh;
        });
        try {
            return Optional.of(job.done.get(millis, TimeUnit.MILLISECONDS));
        } catch (TimeoutException e) {
            return Optional.empty();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException r) throw r;
            throw new CompletionException(e.getCause());
        } finally {
            if (job.done.isDone()) jobs.remove(key, job);
        }
    }

    private static String key(OpenCase open) {
        return "ranking " + open.journal().last().hex();
    }

    /** How far the ranking of a case is, 0 to 1. */
    double share(OpenCase open) {
        Job<?> job = jobs.get(key(open));
        return job == null ? 1 : job.share;
    }

    @Override
    public void close() {
        ranking.shutdownNow();
        advising.shutdownNow();
    }
}
