package loomcase.policy;

import java.util.List;
import java.util.Objects;

/**
 * What a claim says as a whole, as the claim rules see it; one fact for each claim. What is not said is empty, zero or
 * {@code false}.
 *
 * @param machine id of the machine
 * @param serial serial number of the engine or machine
 * @param inService date of first use, as printed
 * @param distanceOrHours distance or engine hours, as printed
 * @param complaint what the driver or customer says
 * @param complaintLine journal line on which the complaint, as it now stands, was written: the first, unless it was
 *     corrected later
 * @param cause what failed and how it was found, in words
 * @param causePlace id of the place that failed, as in circuit files
 * @param correction what was done, in words
 * @param damageCause why it failed: one of {@link #DAMAGE_CAUSES}
 * @param option what was chosen: one of {@link RemedyFact#OPTIONS}
 * @param also option of the second repair of the same visit; empty for one repair
 * @param alsoPlace id of the second place that failed
 * @param optionReason why that was chosen, in words
 * @param verdict what the verdict said before the repair: an option, {@link #TWO_REPAIRS}, {@link #TEST_FIRST} or {@link
 *     #ASK}; empty where
 *     none was computed
 * @param requiringRule name of the repair rule that required the option
 * @param forbiddingRule name of a repair rule that forbids the option
 * @param costsCompared the costs of the allowed options are shown side by side
 * @param technician who did the work
 * @param clockedMinutes minutes between clock-on and clock-off, 0 or more; 0 where not clocked
 * @param evidenceWhole the chain of digests of the case journal was checked and holds
 */
public record ClaimCase(
        String machine,
        String serial,
        String inService,
        String distanceOrHours,
        String complaint,
        int complaintLine,
        String cause,
        String causePlace,
        String correction,
        String damageCause,
        String option,
        String also,
        String alsoPlace,
        String optionReason,
        String verdict,
        String requiringRule,
        String forbiddingRule,
        boolean costsCompared,
        String technician,
        double clockedMinutes,
        boolean evidenceWhole) {
    /** Why a harness fails; who pays hangs on it. */
    public static final List<String> DAMAGE_CAUSES =
            List.of("rub", "heat", "fluid", "installation", "animal", "modification", "wear", "collision");

    /** The verdict when a test should have come before any repair. */
    public static final String TEST_FIRST = "not-enough-evidence";

    /** The verdict when repair rules contradict each other or forbid everything. */
    public static final String ASK = "ask";

    /** The verdict when two repairs are made in one visit. */
    public static final String TWO_REPAIRS = "two-repairs";

    public ClaimCase {
        for (String text : new String[] {
            machine,
            serial,
            inService,
            distanceOrHours,
            complaint,
            cause,
            causePlace,
            correction,
            optionReason,
            technician
        }) Objects.requireNonNull(text, "a text of the claim; empty stands for not said");
        Objects.requireNonNull(requiringRule, "requiringRule");
        Objects.requireNonNull(forbiddingRule, "forbiddingRule");
        Listed.requireOrEmpty("damageCause", damageCause, DAMAGE_CAUSES);
        Listed.requireOrEmpty("option", option, RemedyFact.OPTIONS);
        Listed.requireOrEmpty("also", also, RemedyFact.OPTIONS);
        Objects.requireNonNull(alsoPlace, "alsoPlace");
        if (!verdict.equals(TEST_FIRST) && !verdict.equals(ASK) && !verdict.equals(TWO_REPAIRS))
            Listed.requireOrEmpty("verdict", verdict, RemedyFact.OPTIONS);
        if (!(clockedMinutes >= 0 && Double.isFinite(clockedMinutes)))
            throw new IllegalArgumentException("clockedMinutes is " + clockedMinutes + "; allowed is 0 or more");
    }

    /** What was chosen, in the words of the verdict. */
    public String getChosen() {
        return also.isEmpty() ? option : TWO_REPAIRS;
    }
}
