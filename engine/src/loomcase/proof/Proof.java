package loomcase.proof;

import java.util.List;

/**
 * Whether a repair is proven.
 *
 * @param status the answer
 * @param workLines lines of the case that record the work, in order
 * @param checks every check, in the order in which they are best done
 */
public record Proof(Status status, List<Integer> workLines, List<Check> checks) {
    /** The answer. */
    public enum Status {
        /** Every check was done and passed. */
        PROVEN,
        /** Nothing contradicts, but something is missing. */
        NOT_PROVEN,
        /** Something seen after the work contradicts it. */
        DISPROVEN;

        /** The word used on screens and in JSON. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
        }
    }

    /** How a check stands. */
    public enum State {
        PASSED,
        MISSING,
        CONTRADICTED;

        /** The word used on screens and in JSON. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /**
     * One thing to measure or see.
     *
     * @param words what to do and what must come out, with its limit
     * @param source where the limit comes from
     * @param caution what can hurt here, empty for nothing
     * @param state how it stands
     * @param lines lines of the case that say so
     * @param found what they say, empty when missing
     */
    public record Check(String words, String source, String caution, State state, List<Integer> lines, String found) {
        public Check {
            lines = List.copyOf(lines);
        }
    }

    public Proof {
        workLines = List.copyOf(workLines);
        checks = List.copyOf(checks);
    }

    static Proof of(List<Integer> workLines, List<Check> checks) {
        boolean contradicted = checks.stream().anyMatch(c -> c.state() == State.CONTRADICTED);
        boolean missing = checks.stream().anyMatch(c -> c.state() == State.MISSING);
        return new Proof(
                contradicted ? Status.DISPROVEN : missing ? Status.NOT_PROVEN : Status.PROVEN, workLines, checks);
    }
}
