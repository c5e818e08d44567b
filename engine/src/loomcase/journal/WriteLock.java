package loomcase.journal;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Path;
import loomcase.InputProblem;

/** The right to add to a case, held by one writer at a time on this machine, until its channel is closed. */
final class WriteLock {
    /** How long a second writer waits; writing a line takes far less. */
    static final long WAIT_MILLIS = 3000;

    private static final long STEP_MILLIS = 20;

    private WriteLock() {}

    /**
     * Takes the lock, waiting up to {@value #WAIT_MILLIS} ms.
     *
     * @throws InputProblem when another writer keeps it
     */
    static void take(Path file, FileChannel channel) throws IOException {
        long start = System.nanoTime();
        while (true) {
            if (taken(channel)) return;
            if (System.nanoTime() - start > WAIT_MILLIS * 1_000_000L)
                throw new InputProblem(
                        file + ": somebody else is writing to this case; nothing was recorded, try again");
            pause(file);
        }
    }

    /** False while another process, or another thread of this one, holds it. */
    private static boolean taken(FileChannel channel) throws IOException {
        try {
            return channel.tryLock() != null;
        } catch (OverlappingFileLockException e) {
            return false;
        }
    }

    private static void pause(Path file) {
        try {
            Thread.sleep(STEP_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new InputProblem(file + ": waiting for another writer was interrupted; nothing was recorded", e);
        }
    }
}
