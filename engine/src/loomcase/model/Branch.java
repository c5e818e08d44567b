package loomcase.model;

import java.util.List;

/**
 * One stretch of the loom between two junctions; the branches form a tree.
 *
 * @param id the id in the circuit file
 * @param label what a technician would call it
 * @param from junction at metre zero
 * @param to junction at the far end
 * @param metres length
 * @param zone surroundings
 * @param clips how many clips hold it
 * @param rubPoints places where it touches metal
 * @param access steps needed before it can be seen and touched
 * @param build how it is covered and held
 */
public record Branch(
        String id,
        String label,
        String from,
        String to,
        double metres,
        Zone zone,
        int clips,
        List<RubPoint> rubPoints,
        List<String> access,
        Build build) {

    /** What lies around the wires. */
    public enum Cover {
        OPEN,
        TAPE,
        CONDUIT,
        /** Cast into rubber or plastic: cannot be opened and closed again. */
        MOULDED
    }

    /**
     * How a branch is made.
     *
     * @param cover what lies around the wires
     * @param flexes it moves in use, as across a cab or axle joint
     * @param brackets brackets that hold it, by name
     */
    public record Build(Cover cover, boolean flexes, List<String> brackets) {
        /** Conduit, at rest, held by clips only. */
        public static final Build USUAL = new Build(Cover.CONDUIT, false, List.of());

        public Build {
            brackets = List.copyOf(brackets);
        }
    }

    /** A branch of the usual build. */
    public Branch(
            String id,
            String label,
            String from,
            String to,
            double metres,
            Zone zone,
            int clips,
            List<RubPoint> rubPoints,
            List<String> access) {
        this(id, label, from, to, metres, zone, clips, rubPoints, access, Build.USUAL);
    }

    /**
     * A place where the loom can wear through.
     *
     * @param id the id in the circuit file
     * @param label where it is, in words
     * @param metresAlong distance from the branch's {@code from} junction
     */
    public record RubPoint(String id, String label, double metresAlong) {}

    public Branch {
        rubPoints = List.copyOf(rubPoints);
        access = List.copyOf(access);
    }
}
