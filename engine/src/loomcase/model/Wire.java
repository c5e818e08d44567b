package loomcase.model;

import java.util.OptionalDouble;

/**
 * One conductor between two points of the harness.
 *
 * @param id the id in the circuit file
 * @param circuit what it carries, in words
 * @param from point at its first end: {@code CONNECTOR/CAVITY}, a splice, a ground, {@code FUSE/in} or {@code FUSE/out}
 * @param to point at its second end
 * @param size conductor size
 * @param colour colour marking
 * @param insulation insulation class
 * @param givenMetres length when the file states it; otherwise it follows from the route
 */
public record Wire(
        String id,
        String circuit,
        String from,
        String to,
        Conductor size,
        String colour,
        String insulation,
        OptionalDouble givenMetres) {

    public Wire {
        if (from.equals(to))
            throw new IllegalArgumentException("wire " + id + " starts and ends at the same point " + from);
    }
}
