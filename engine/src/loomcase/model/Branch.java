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
        List<String> access) {

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
