package loomcase.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
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
    private int widest;

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
        return watch(answer, err, line -> answer.ranking(line::share));
    }

    /** The same with every pair of faults that can matter weighed. */
    static Answer watchAllPairs(Answer answer, PrintWriter err) {
        return watch(answer, err, line -> answer.rankingWithAllPairs(line::share));
    }

    private static Answer watch(Answer answer, PrintWriter err, Consumer<ProgressLine> ranking) {
        ProgressLine line = of("weighing hypotheses", err);
        ranking.accept(line);
        line.clear();
        return answer;
    }

    /** Shows the share done, 0 to 1, when it is time to. */
    void share(double share) {
        say(() -> String.format(Locale.ROOT, "%3.0f %%", 100 * share));
    }

    /**
     * The same with how long the rest will take at the pace so far.
     *
     * @param share more than 0, to 1
     */
    void shareAndTime(double share) {
        double left = (nanos.getAsLong() - start) / 1e9 / share * (1 - share);
        say(() -> String.format(Locale.ROOT, "%3.0f %%, %s left", 100 * share, time(left)));
    }

    /**
     * Shows how many of an estimated number are done and how long the rest will take at the pace so far.
     *
     * @param done how many are done
     * @param before how many of them were done before this run began
     * @param all how many there are, an estimate
     */
    void count(long done, long before, double all) {
        double seconds = (nanos.getAsLong() - start) / 1e9;
        double left = done > before ? seconds / (done - before) * Math.max(0, all - done) : 0;
        say(() -> String.format(
                Locale.ROOT,
                "%,d done, %3.0f %%, %s left",
                done,
                100 * Math.min(1, done / Math.max(1, all)),
                time(left)));
    }

    private static String time(double seconds) {
        if (seconds < 90) return Math.round(seconds) + " s";
        return seconds < 5400 ? Math.round(seconds / 60) + " min" : Math.round(seconds / 3600) + " h";
    }

    private void say(Supplier<String> text) {
        long now = nanos.getAsLong();
        if (!watched || now - start < SILENT_NANOS || shown && now - last < BETWEEN_NANOS) return;
        String line = word + ": " + text.get();
        err.print("\r" + line + " ".repeat(Math.max(0, widest - line.length())));
        err.flush();
        widest = Math.max(widest, line.length());
        shown = true;
        last = now;
    }

    /** Wipes the line. */
    void clear() {
        if (!shown) return;
        err.print("\r" + " ".repeat(widest) + "\r");
        err.flush();
        shown = false;
    }
}
