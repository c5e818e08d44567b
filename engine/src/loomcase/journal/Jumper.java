package loomcase.journal;

import loomcase.InputProblem;

/**
 * A lead clipped between two points of the circuit.
 *
 * @param from point, named as {@link loomcase.model.Names} says
 * @param to another point
 * @param ohms resistance of the lead, 0 for plain wire, at most {@value #MOST_OHMS}
 */
public record Jumper(String from, String to, double ohms) {
    /** More than this is no jumper. */
    public static final double MOST_OHMS = 1e6;

    public Jumper {
        if (from.isBlank() || to.isBlank()) throw new IllegalArgumentException("a jumper needs two points");
        if (from.equals(to)) throw new IllegalArgumentException("a jumper from " + from + " to itself does nothing");
        if (!(ohms >= 0 && ohms <= MOST_OHMS))
            throw new IllegalArgumentException("jumper of " + ohms + " ohm; allowed are 0 to 1000000 ohm");
    }

    /**
     * Reads {@code FROM:TO} or {@code FROM:TO:OHMS}, as in {@code C-ECT/1:C-ECT/2:1kohm}.
     *
     * @throws InputProblem saying what is allowed
     */
    public static Jumper parse(String text) {
        String[] parts = text.strip().split(":", -1);
        if (parts.length < 2 || parts.length > 3)
            throw new InputProblem("jumper '" + text + "' is not FROM:TO or FROM:TO:OHMS, as in C1/1:C1/2:1kohm");
        double ohms = parts.length == 2 ? 0 : Shown.parseOhms("jumper '" + text + "'", parts[2]);
        try {
            return new Jumper(parts[0], parts[1], ohms);
        } catch (IllegalArgumentException e) {
            throw new InputProblem("jumper '" + text + "': " + e.getMessage(), e);
        }
    }

    @Override
    public String toString() {
        return from + " to " + to + (ohms == 0 ? "" : " through " + Shown.plain(ohms) + " ohm");
    }
}
