package loomcase.model;

import java.util.Optional;
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
 * @param lay how it is laid: alone, twisted, shielded, and whether it may be cut
 */
public record Wire(
        String id,
        String circuit,
        String from,
        String to,
        Conductor size,
        String colour,
        String insulation,
        OptionalDouble givenMetres,
        Lay lay) {

    /**
     * How a wire is laid.
     *
     * @param twistedWith id of the wire it is twisted with
     * @param shielded it runs under a shield
     * @param noSplice why it may not be cut and spliced; empty where it may
     */
    public record Lay(Optional<String> twistedWith, boolean shielded, Optional<String> noSplice) {
        /** A single wire without shield that may be spliced. */
        public static final Lay PLAIN = new Lay(Optional.empty(), false, Optional.empty());
    }

    /** A plain single wire. */
    public Wire(
            String id,
            String circuit,
            String from,
            String to,
            Conductor size,
            String colour,
            String insulation,
            OptionalDouble givenMetres) {
        this(id, circuit, from, to, size, colour, insulation, givenMetres, Lay.PLAIN);
    }

    public Wire {
        if (from.equals(to))
            throw new IllegalArgumentException("wire " + id + " starts and ends at the same point " + from);
    }

    /** Whether an end of the wire lies in a connector or fuse of this id. */
    public boolean endsIn(String owner) {
        return Names.connectorOf(from).equals(owner) || Names.connectorOf(to).equals(owner);
    }
}
