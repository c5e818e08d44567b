package loomcase;

import java.util.ArrayDeque;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.function.BiFunction;

/**
 * Several workers who do the parts of one task at once, each worker one part at a time. Results come in the order in which
 * their parts were asked for, and only a few parts are under way at a time, so memory does not grow with the task.
 *
 * @param <W> a worker, with whatever is not made for several threads
 */
public final class Crew<W> implements AutoCloseable {
    private final int number;
    private final BlockingQueue<W> idle;
    private final ExecutorService pool;

    /** @param all the workers, one at least */
    public Crew(List<W> all) {
        this.number = all.size();
        this.idle = new LinkedBlockingQueue<>(all);
        this.pool = Executors.newFixedThreadPool(number);
    }

    /**
     * Results in the order of what is asked; each is worked for a little before it is wanted.
     *
     * @param ahead parts under way for each worker; those not wanted in the end are work for nothing
     */
    public <A, R> Iterator<R> inOrder(Iterator<A> asked, int ahead, BiFunction<W, A, R> part) {
        return new InOrder<>(asked, ahead * number, part);
    }

    private final class InOrder<A, R> implements Iterator<R> {
        private final Iterator<A> asked;
        private final int most;
        private final BiFunction<W, A, R> part;
        private final ArrayDeque<Future<R>> underWay = new ArrayDeque<>();

        InOrder(Iterator<A> asked, int most, BiFunction<W, A, R> part) {
            this.asked = asked;
            this.most = most;
            this.part = part;
        }

        @Override
        public boolean hasNext() {
            while (underWay.size() < most && asked.hasNext()) {
                A next = asked.next();
                underWay.add(pool.submit(() -> work(part, next)));
            }
            return !underWay.isEmpty();
        }

        @Override
        public R next() {
            if (!hasNext()) throw new NoSuchElementException("no part of the task is left");
            return got(underWay.remove());
        }
    }

    private <A, R> R work(BiFunction<W, A, R> part, A asked) throws InterruptedException {
        W worker = idle.take();
        try {
            return part.apply(worker, asked);
        } finally {
            idle.add(worker);
        }
    }

    /** A result, waited for; what went wrong while it was worked for is thrown here. */
    public static <R> R got(Future<R> future) {
        try {
            return future.get();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("stopped", e);
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException own) throw own;
            throw new IllegalStateException(e.getCause());
        }
    }

    @Override
    public void close() {
        pool.shutdownNow();
    }
}
