package loomcase.drill;

import java.util.List;
import loomcase.faults.Hypothesis;
import loomcase.j1939.Code;

/**
 * What is wrong with the engine of a drill: the sealed part.
 *
 * @param seed what every random number of this engine and its meter hangs on
 * @param faults faults planted, at least one
 * @param strays old codes stored from something else
 */
public record Truth(long seed, List<Fault> faults, List<Stray> strays) {
    /** A drill has no more faults than this. */
    static final int MOST_FAULTS = 2;

    /**
     * One fault.
     *
     * @param hypothesis id, as {@link loomcase.faults.FaultGenerator} makes it
     * @param hits for a common cause, numbers of the neighbours that it hit, ascending; otherwise empty
     * @param showing when it is there
     */
    public record Fault(String hypothesis, List<Integer> hits, Showing showing) {
        public Fault {
            hits = List.copyOf(hits);
        }

        /** The fault of a hypothesis that hits nothing by chance. */
        public static Fault of(Hypothesis h) {
            return new Fault(h.id(), List.of(), h.comesAndGoes() ? Showing.AT_RANDOM : Showing.ALWAYS);
        }
    }

    /**
     * An old stored code.
     *
     * @param count how often it was counted
     */
    public record Stray(Code code, int count) {}

    public Truth {
        faults = List.copyOf(faults);
        strays = List.copyOf(strays);
        if (faults.isEmpty()) throw new IllegalArgumentException("a drill needs a fault");
    }
}
