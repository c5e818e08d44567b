package loomcase.model;

import java.util.List;

/** The small joints of a harness: splices, ground studs and fuses. */
public final class Joints {
    private Joints() {}

    /**
     * Several wires crimped or welded together inside the loom.
     *
     * @param id the id in the circuit file
     * @param label what it joins, in words
     * @param branch branch it lies in
     * @param metresAlong distance from the branch's {@code from} junction
     */
    public record Splice(String id, String label, String branch, double metresAlong) {}

    /**
     * A ring terminal stack bolted to the engine or frame.
     *
     * @param id the id in the circuit file
     * @param label where it is
     * @param at junction of the loom where it hangs
     * @param ohms healthy resistance from stud to chassis
     * @param access steps needed before it can be touched
     */
    public record Ground(String id, String label, String at, double ohms, List<String> access) {
        public Ground {
            access = List.copyOf(access);
        }
    }

    /**
     * A fuse with its two terminals, {@code ID/in} on the battery side and {@code ID/out} on the load side.
     *
     * @param id the id in the circuit file
     * @param label what it feeds
     * @param at junction of the loom where it sits
     * @param amperes rating; in the model it opens above {@value #OPENS_AT} times this
     * @param ohms healthy resistance
     * @param access steps needed before it can be pulled
     */
    public record Fuse(String id, String label, String at, double amperes, double ohms, List<String> access) {
        /** Multiple of the rating at which a blade fuse must open in the end (ISO 8820-3 tests 135 %; from memory). */
        public static final double OPENS_AT = 1.35;

        public Fuse {
            access = List.copyOf(access);
        }
    }
}
