package loomcase.predict;

import java.util.Optional;

/**
 * Keeps, between runs, what every single fault does to every watch of one circuit, one table for each operating point.
 *
 * <p>Never needed: whoever gets nothing solves the networks instead and comes to the same numbers. A table is bytes whose
 * form only {@link PointTable} knows; it carries its own checksum, so a keeper may be careless but must not mix tables of
 * different circuits or programs.
 */
public interface Dictionary {
    /** Keeps nothing. */
    Dictionary NONE = new Dictionary() {
        @Override
        public Optional<byte[]> get(String operatingPoint) {
            return Optional.empty();
        }

        @Override
        public void put(String operatingPoint, byte[] table) {}
    };

    /** The table of an operating point, when one was kept. */
    Optional<byte[]> get(String operatingPoint);

    /** Keeps a table for later; a failure to do so is nobody's trouble. */
    void put(String operatingPoint, byte[] table);
}
