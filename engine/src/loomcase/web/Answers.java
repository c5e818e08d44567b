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
import loomcase.casework.Answer;
import loomcase.casework.OpenCase;
import loomcase.journal.Digest;

/** Rankings under way, one at a time, each with how far it is. */
final class Answers implements AutoCloseable {
    private final ExecutorService worker = Executors.newSingleThreadExecutor(r -> {
        Thread t = new Thread(r, "ranking");
        t.setDaemon(true);
        return t;
    });
    private final Map<Digest, Job> jobs = new ConcurrentHashMap<>();

    /** A ranking under way. */
    private static final class Job {
        private final CompletableFuture<Answer> done = new CompletableFuture<>();
        private volatile double share;
    }

    /**
     * The answer with ranking and plan made, if that is so within a time; it goes on being made otherwise.
     *
     * @param millis how long to wait
     * @throws loomcase.InputProblem when the case has no codes
     */
    Optional<Answer> within(OpenCase open, long millis) {
        Digest key = open.journal().last();
        Job job = jobs.computeIfAbsent(key, k -> start(open));
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

    private Job start(OpenCase open) {
        Job job = new Job();
        worker.execute(() -> {
            try {
                Answer answer = open.answer();
                answer.ranking(share -> job.share = share);
                answer.next();
                job.done.complete(answer);
            } catch (RuntimeException | Error e) {
                job.done.completeExceptionally(e);
            }
        });
        return job;
    }

    /** How far the answer of a case is, 0 to 1. */
    double share(OpenCase open) {
        Job job = jobs.get(open.journal().last());
        return job == null ? 1 : job.share;
    }

    @Override
    public void close() {
        worker.shutdownNow();
    }
}
