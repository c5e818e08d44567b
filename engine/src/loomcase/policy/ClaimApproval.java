package loomcase.policy;

import java.util.Objects;

/**
 * Something that needs somebody's agreement, as the claim rules see it: sublet work, overtime, or a remedy that a repair
 * rule lets through only with approval.
 *
 * @param about what needs it, in words
 * @param number of the agreement; empty where there is none
 * @param date of the agreement, as printed; empty where not said
 * @param by who agreed; empty where not said
 */
public record ClaimApproval(String about, String number, String date, String by) {
    public ClaimApproval {
        Objects.requireNonNull(about, "about");
        Objects.requireNonNull(number, "number");
        Objects.requireNonNull(date, "date");
        Objects.requireNonNull(by, "by");
    }
}
