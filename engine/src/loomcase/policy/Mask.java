package loomcase.policy;

import java.util.Comparator;

/**
 * One code that keeps another from being shown.
 *
 * <p>Several rules may speak for the same two codes; the strongest counts.
 *
 * @param bySpn SPN of the code that is active
 * @param byFmi FMI of the code that is active
 * @param hidesSpn SPN of the code that is kept back
 * @param hidesFmi FMI of the code that is kept back
 * @param strength probability, over 0 and up to 1, that the second is kept back while the first is active
 * @param rule name of the rule that says so
 * @param reason why, in the rule's words
 */
public record Mask(int bySpn, int byFmi, int hidesSpn, int hidesFmi, double strength, String rule, String reason) {
    static final Comparator<Mask> ORDER = Comparator.comparingInt(Mask::bySpn)
            .thenComparingInt(Mask::byFmi)
            .thenComparingInt(Mask::hidesSpn)
            .thenComparingInt(Mask::hidesFmi)
            .thenComparing(Mask::rule)
            .thenComparingDouble(Mask::strength);

    public Mask {
        Codes.require("hiding spn", bySpn, Codes.LARGEST_SPN);
        Codes.require("hiding fmi", byFmi, Codes.LARGEST_FMI);
        Codes.require("hidden spn", hidesSpn, Codes.LARGEST_SPN);
        Codes.require("hidden fmi", hidesFmi, Codes.LARGEST_FMI);
        if (!(strength > 0 && strength <= 1)) {
            throw new IllegalArgumentException("strength is " + strength + "; allowed is over 0 and up to 1");
        }
        if (bySpn == hidesSpn && byFmi == hidesFmi) {
            throw new IllegalArgumentException("code " + bySpn + "/" + byFmi + " cannot hide itself");
        }
    }
}
