package loomcase.model;

import java.util.List;
import java.util.Optional;

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
 * @param shell the housing, when the file describes it
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
        List<String> access,
        Optional<Shell> shell) {

    /**
     * What decides whether a plug mates, besides its cavities. Texts are compared as they stand; empty where not known.
     *
     * @param keying the key or code of the mating face, as marked
     * @param colour of the housing
     * @param latch kind and side of the latch
     * @param seal interface and wire seals
     * @param secondaryLock whether a second lock holds the terminals
     */
    public record Shell(String keying, String colour, String latch, String seal, boolean secondaryLock) {}

    public Connector {
        rows = rows.stream().map(List::copyOf).toList();
        access = List.copyOf(access);
    }

    /** A connector whose housing the file does not describe. */
    public Connector(
            String id,
            String label,
            String at,
            String mates,
            List<List<String>> rows,
            String terminal,
            boolean sealed,
            Zone zone,
            List<String> access) {
        this(id, label, at, mates, rows, terminal, sealed, zone, access, Optional.empty());
    }

    /** True when the connector has a cavity of this name. */
    public boolean has(String cavity) {
        return rows.stream().anyMatch(row -> row.contains(cavity));
    }
}
