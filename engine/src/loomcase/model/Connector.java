package loomcase.model;

import java.util.List;

/**
 * The harness side of a plug, with its cavities in rows as seen on the mating face.
 *
 * @param id the id in the circuit file
 * @param label what a technician would call it
 * @param at the junction of the loom where it hangs
 * @param mates id of what it plugs into: a device, the control unit or another connector
 * @param rows cavity names, row by row; cavities next to each other here are neighbours
 * @param terminal terminal family
 * @param sealed whether it has wire and interface seals
 * @param zone surroundings
 * @param access steps needed before it can be unplugged
 */
public record Connector(
        String id,
        String label,
        String at,
        String mates,
        List<List<String>> rows,
        String terminal,
        boolean sealed,
        Zone zone,
        List<String> access) {

    public Connector {
        rows = rows.stream().map(List::copyOf).toList();
        access = List.copyOf(access);
    }

    /** True when the connector has a cavity of this name. */
    public boolean has(String cavity) {
        return rows.stream().anyMatch(row -> row.contains(cavity));
    }
}
