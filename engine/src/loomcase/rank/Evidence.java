package loomcase.rank;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import loomcase.faults.WorkDone;
import loomcase.j1939.Code;
import loomcase.meter.Outcome;
import loomcase.meter.Test;

/**
 * What is known of a complaint: the codes seen, and the operating points at which the control unit looked.
 *
 * @param codes codes seen, each once
 * @param operatingPoints ids of the operating points visited; a code whose watch runs at one of them and that was not
 *     seen counts as evidence too
 * @param tested tests made and what they gave, in order
 * @param work what was done before the codes were read
 */
public record Evidence(List<Seen> codes, List<String> operatingPoints, List<Tested> tested, WorkDone work) {

    /**
     * A test made.
     *
     * @param test what was done
     * @param outcome what it gave
     */
    public record Tested(Test test, Outcome outcome) {}

    /** Codes and tests on an engine that nobody worked at. */
    public Evidence(List<Seen> codes, List<String> operatingPoints, List<Tested> tested) {
        this(codes, operatingPoints, tested, WorkDone.NONE);
    }

    /** Codes alone. */
    public Evidence(List<Seen> codes, List<String> operatingPoints) {
        this(codes, operatingPoints, List.of());
    }

    /** Whether a code is there now or was there before. */
    public enum State {
        ACTIVE,
        STORED;

        /** The word used in files and on screens. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /**
     * One code seen.
     *
     * @param code the code
     * @param state there now or there before
     * @param count occurrence count, empty where the network says it is not available
     */
    public record Seen(Code code, State state, OptionalInt count) {}

    public Evidence {
        codes = List.copyOf(codes);
        operatingPoints = List.copyOf(operatingPoints);
        tested = List.copyOf(tested);
        long distinct = codes.stream().map(Seen::code).distinct().count();
        if (distinct != codes.size()) throw new IllegalArgumentException("a code is given twice in " + codes);
        if (operatingPoints.isEmpty()) throw new IllegalArgumentException("evidence needs an operating point");
    }

    /** The same with one more test. */
    public Evidence with(Tested next) {
        List<Tested> all = new ArrayList<>(tested);
        all.add(next);
        return new Evidence(codes, operatingPoints, all, work);
    }

    /** The same after more work, when these very codes were read again. */
    public Evidence with(WorkDone more) {
        return new Evidence(codes, operatingPoints, tested, work.and(more));
    }
}
