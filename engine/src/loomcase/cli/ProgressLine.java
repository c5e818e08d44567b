package loomcase.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.function.LongSupplier;
import loomcase.casework.Answer;

/**
 * One line on the error output that shows how far a long run is, rewritten in place and wiped at the end.
 *
 * <p>It stays silent for the first seconds, and throughout when nobody watches: the launcher sets the system property
 * {@value #TERMINAL} to {@code true} when the error output is a terminal.
 */
final class ProgressLine {
    /** System property, {@code true} when the error output is a terminal. */
    static final String TERMINAL = "loomcase.terminal";

    private static final long SILENT_NANOS = 2_000_000_000L;
    private static final long BETWEEN_NANOS = 250_000_000L;

    private final String word;
    private final PrintWriter err;
    private final boolean watched;
    private final LongSupplier nanos;
    private final long start;
    private long last;
    private boolean shown;

    ProgressLine(String word, PrintWriter err, boolean watched, LongSupplier nanos) {
        this.word = word;
        this.err = err;
        this.watched = watched;
        this.nanos = nanos;
        this.start = nanos.getAsLong();
        this.last = start;
    }

    static ProgressLine of(String word, PrintWriter err) {
        return new ProgressLine(word, err, Boolean.getBoolean(TERMINAL), System::nanoTime);
    }

    /** An answer with its ranking made while a line shows how far it is. */
    static Answer watch(Answer answer, PrintWriter err) {
        ProgressLine line = of("weighing hypotheses", err);
        answer.ranking(line::share);
        line.clear();
        return answer;
    }

    /** Shows the share done, 0 to 1, when it is time to. */
    void share(double share) {
        long now = nanos.getAsLong();
        if (!watched || now - start < SILENT_NANOS || shown && now - last < BETWEEN_NANOS) return;
        err.print(String.format(Locale.ROOT, "\r%s: %3.0f %%", word, 100 * share));
        err.flush();
        shown = true;
        last = now;
    }

    /** Wipes the line. */
    void clear() {
        if (!shown) return;
        err.print("\r" + " ".repeat(word.length() + 7) + "\r");
        err.flush();
        shown = false;
    }
}
