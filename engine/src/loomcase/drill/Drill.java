package loomcase.drill;

import loomcase.journal.Fact;

/**
 * What a student is told at the start: the part of a drill file that anybody may read.
 *
 * @param circuit the circuit file, as the drill names it from its own folder
 * @param complaint what the driver says
 * @param first codes and lamps as they were read when the engine came in
 * @param difficulty word for how hard it is, empty when the instructor keeps it
 * @param limits what may be used up
 */
public record Drill(Fact.CircuitFile circuit, String complaint, Fact.Codes first, String difficulty, Limits limits) {
    public Drill {
        if (complaint.isBlank()) throw new IllegalArgumentException("a drill needs a complaint");
        if (first.codes().isEmpty()) throw new IllegalArgumentException("a drill needs a code to start from");
    }
}
