package loomcase.proof;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Whether a repair is proven.
 *
 * @param status the answer
 * @param workLines lines of the case that record the work, in order
 * @param checks every check, in the order in which they are best done
 * @param notes what no check covers, and why, one sentence each
 */
public record Proof(Status status, List<Integer> workLines, List<Check> checks, List<String> notes) {
    /** The answer. */
    public enum Status {
        /** Every check was done and passed. */
        PROVEN,
        /** Nothing contradicts, but something is missing. */
        NOT_PROVEN,
        /** Something seen after the work contradicts it. */
        DISPROVEN;

        /** The word used in JSON. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /** How a check stands. */
    public enum State {
        PASSED,
        MISSING,
        CONTRADICTED;

        /** The word used on screens and in JSON. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** What kind of check it is, in the order in which they are best done. */
    public enum Kind {
        /** Ohms from end to end. */
        CONTINUITY,
        /** Ohms to the chassis. */
        ISOLATION,
        /** A place where work was done is looked at. */
        LOOK,
        /** A plug that was apart is home and locked. */
        PLUG,
        /** A place is moved with values in view. */
        WIGGLE,
        /** Something else was found after the work. */
        FOUND,
        /** An access step is undone. */
        CLOSE,
        /** Codes are cleared. */
        CLEAR,
        /** The engine is run so that watches look. */
        RUN,
        /** Key off and on again, codes read anew. */
        CYCLE,
        /** No code is there. */
        CODES,
        /** The lamps are out. */
        LAMPS;

        /** The word used in JSON. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * What a meter must show.
     *
     * @param a point of one lead
     * @param b point of the other, possibly the chassis
     * @param unplugged plugs that must be apart
     * @param aboutOhms what good copper gives at 20 °C, empty for isolation
     * @param limitOhms the limit at 20 °C
     * @param atMost true when a reading above the limit is bad, false when one below is
     */
    public record Limit(
            String a, String b, List<String> unplugged, Optional<Double> aboutOhms, double limitOhms, boolean atMost) {
        public Limit {
            unplugged = List.copyOf(unplugged);
            if (!(limitOhms > 0)) throw new IllegalArgumentException("limit of " + limitOhms + " ohm at " + a);
        }
    }

    /**
     * One thing to measure or see.
     *
     * @param kind what kind of check
     * @param words what to do and what must come out
     * @param limit the limit of a reading, empty for anything else
     * @param source where the limit comes from
     * @param caution what can hurt here, empty for nothing
     * @param state how it stands
     * @param lines lines of the case that say so
     * @param found what they say, or why they do not count; empty when there is nothing
     */
    public record Check(
            Kind kind,
            String words,
            Optional<Limit> limit,
            String source,
            String caution,
            State state,
            List<Integer> lines,
            String found) {
        public Check {
            lines = List.copyOf(lines);
        }
    }

    public Proof {
        workLines = List.copyOf(workLines);
        checks = List.copyOf(checks);
        notes = List.copyOf(notes);
    }

    /** The status follows from the checks: one contradiction disproves, one gap leaves it open. */
    static Proof of(List<Integer> workLines, List<Check> checks, List<String> notes) {
        Status status = checks.stream().anyMatch(c -> c.state() == State.CONTRADICTED)
                ? Status.DISPROVEN
                : checks.stream().anyMatch(c -> c.state() == State.MISSING) ? Status.NOT_PROVEN : Status.PROVEN;
        return new Proof(status, workLines, checks, notes);
    }

    /** Checks in one state, in order. */
    public List<Check> in(State state) {
        return checks.stream().filter(c -> c.state() == state).toList();
    }
}
