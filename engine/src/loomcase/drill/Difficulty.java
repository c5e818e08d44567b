package loomcase.drill;

import java.util.Locale;
import loomcase.InputProblem;

/** How hard a drill is, by its {@link Rating}. */
public enum Difficulty {
    EASY(0, 2.5),
    MEDIUM(3, 5.5),
    HARD(6, 12);

    private final double from;
    private final double to;

    Difficulty(double from, double to) {
        this.from = from;
        this.to = to;
    }

    /** True when a drill of this score belongs here; between two bands lies a gap, so that neighbours differ. */
    boolean holds(double score) {
        return score >= from && score <= to;
    }

    /** The word used in files and on screens. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The constant that a word names. */
    public static Difficulty of(String word) {
        for (Difficulty d : values()) if (d.word().equals(word)) return d;
        throw new InputProblem("difficulty '" + word + "' is not one of easy, medium, hard");
    }
}
