package loomcase.predict;

import java.util.Optional;

/**
 * Keeps, between runs, what was worked out of one circuit by the program as it is: what every single fault does to every
 * watch, one table for each operating point, and what others keep under names of their own.
 *
 * <p>Never needed: whoever gets nothing works it out again and comes to the same. What is kept is bytes whose form only
 * their writer knows; they carry their own checksum, so a keeper may be careless but must not mix circuits or programs.
 */
public interface Dictionary {
    /** Keeps nothing. */
    Dictionary NONE = new Dictionary() {
        @Override
        public Optional<byte[]> get(String what) {
            return Optional.empty();
        }

        @Override
        public void put(String what, byte[] bytes) {}
    };

    /**
     * What was kept.
     *
     * @param what id of an operating point for its table, or another name, with a blank in it
     */
    Optional<byte[]> get(String what);

    /** Keeps bytes for later; a failure to do so is nobody's trouble. */
    void put(String what, byte[] bytes);
}
