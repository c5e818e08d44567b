package loomcase.model;

/**
 * One place a technician can point at: the kind of place and its id in the circuit file.
 *
 * @param kind what sort of place it is
 * @param id the id in the circuit file; a cavity is written {@code CONNECTOR/CAVITY}
 */
public record PlaceId(Kind kind, String id) implements Comparable<PlaceId> {

    /** The kinds of place; {@link #ENGINE} stands for a true engine condition, where nothing is wrong with a wire. */
    public enum Kind {
        BRANCH("branch"),
        CONNECTOR("connector"),
        CAVITY("cavity"),
        SPLICE("splice"),
        WIRE("wire"),
        DEVICE("device"),
        CONTROL_UNIT("control-unit"),
        GROUND("ground"),
        FUSE("fuse"),
        ENGINE("engine");

        private final String word;

        Kind(String word) {
            this.word = word;
        }

        /** The word used in files and on screens. */
        public String word() {
            return word;
        }
    }

    public PlaceId {
        if (id.isBlank()) throw new IllegalArgumentException("a place needs an id, kind " + kind);
    }

    // Written out: what Java makes for a record is linked at first use, which costs a short run milliseconds each.
    @Override
    public boolean equals(Object other) {
        return other instanceof PlaceId p && kind == p.kind && id.equals(p.id);
    }

    @Override
    public int hashCode() {
        return 31 * kind.ordinal() + id.hashCode();
    }

    @Override
    public int compareTo(PlaceId other) {
        int byKind = kind.compareTo(other.kind);
        return byKind != 0 ? byKind : id.compareTo(other.id);
    }

    @Override
    public String toString() {
        return kind.word() + " " + id;
    }
}
