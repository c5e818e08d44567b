package loomcase.drill;

import loomcase.InputProblem;

/** When a planted fault is there. */
public enum Showing {
    /** Always. */
    ALWAYS,
    /** Only while the wires are hot: at operating points in the hotter half, or where heat is blown at its place. */
    HOT,
    /** Only while its place is moved; the codes it left are stored. */
    MOVED,
    /** At random moments, by the share of time that the priors file states. */
    AT_RANDOM;

    /** The word used in files and on screens. */
    public String word() {
        return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
    }

    /** The constant that a word names. */
    public static Showing of(String word) {
        for (Showing s : values()) if (s.word().equals(word)) return s;
        throw new InputProblem("'" + word + "' is not one of always, hot, moved, at-random");
    }
}
