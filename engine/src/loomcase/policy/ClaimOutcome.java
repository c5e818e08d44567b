package loomcase.policy;

import java.util.List;

/**
 * What the claim rules conclude. All lists are sorted, so equal facts and rules give equal outcomes.
 *
 * @param gaps by severity, part of the claim, rule; empty for a claim that nobody can fault
 * @param shopPolicyDiffers whether the shop's rules changed any gap of this claim
 * @param rulesDisplaced built-in rules that would have found a gap here, but for the shop; by name
 * @param rulesAdded rules of the shop that found a gap here; by name
 */
public record ClaimOutcome(
        List<ClaimGap> gaps, boolean shopPolicyDiffers, List<String> rulesDisplaced, List<String> rulesAdded) {
    public ClaimOutcome {
        gaps = List.copyOf(gaps);
        rulesDisplaced = List.copyOf(rulesDisplaced);
        rulesAdded = List.copyOf(rulesAdded);
    }

    static ClaimOutcome of(Said<ClaimConclusions> said) {
        Said.Laid<ClaimGap> laid = said.lay(ClaimConclusions::gaps, ClaimGap::rule, ClaimGap.ORDER);
        return new ClaimOutcome(laid.conclusions(), laid.differs(), laid.displaced(), laid.added());
    }

    /** Gaps of one severity; empty when there are none. */
    public List<ClaimGap> gaps(ClaimGap.Severity severity) {
        return gaps.stream().filter(gap -> gap.severity() == severity).toList();
    }

    /** Whether nothing keeps the claim from being sent. */
    public boolean canBeSent() {
        return gaps(ClaimGap.Severity.BLOCKS).isEmpty();
    }
}
