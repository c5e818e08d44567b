package loomcase.policy;

import java.util.List;
import java.util.stream.Collectors;

/**
 * What the repair rules conclude. All lists are sorted, so equal facts and rules give equal outcomes.
 *
 * @param rulings by remedy, effect, rule
 * @param conflicts remedies that one rule forbids and another requires, by remedy; both sides stay among the rulings, and
 *     the verdict shows them instead of settling them
 * @param shopPolicyDiffers whether the shop's rules changed any ruling on these remedies
 * @param rulesDisplaced built-in rules that would have ruled here, but for the shop; by name
 * @param rulesAdded rules of the shop that ruled here; by name
 */
public record RemedyOutcome(
        List<RemedyRuling> rulings,
        List<Conflict> conflicts,
        boolean shopPolicyDiffers,
        List<String> rulesDisplaced,
        List<String> rulesAdded) {

    /**
     * One remedy that rules disagree about.
     *
     * @param remedy its id
     * @param forbids rulings that forbid it, at least one
     * @param requires rulings that require it, at least one
     */
    public record Conflict(String remedy, List<RemedyRuling> forbids, List<RemedyRuling> requires) {
        public Conflict {
            forbids = List.copyOf(forbids);
            requires = List.copyOf(requires);
        }
    }

    public RemedyOutcome {
        rulings = List.copyOf(rulings);
        conflicts = List.copyOf(conflicts);
        rulesDisplaced = List.copyOf(rulesDisplaced);
        rulesAdded = List.copyOf(rulesAdded);
    }

    static RemedyOutcome of(Said<RemedyConclusions> said) {
        Said.Laid<RemedyRuling> laid = said.lay(RemedyConclusions::rulings, RemedyRuling::rule, RemedyRuling.ORDER);
        return new RemedyOutcome(
                laid.conclusions(), conflicts(laid.conclusions()), laid.differs(), laid.displaced(), laid.added());
    }

    private static List<Conflict> conflicts(List<RemedyRuling> rulings) {
        return rulings.stream()
                .map(RemedyRuling::remedy)
                .distinct()
                .map(remedy -> new Conflict(
                        remedy,
                        with(rulings, remedy, RemedyRuling.Effect.FORBID),
                        with(rulings, remedy, RemedyRuling.Effect.REQUIRE)))
                .filter(each -> !each.forbids().isEmpty() && !each.requires().isEmpty())
                .collect(Collectors.toList());
    }

    private static List<RemedyRuling> with(List<RemedyRuling> rulings, String remedy, RemedyRuling.Effect effect) {
        return rulings.stream()
                .filter(each -> each.remedy().equals(remedy) && each.effect() == effect)
                .toList();
    }

    /** Rulings of one effect on one remedy; empty when there are none. */
    public List<RemedyRuling> rulings(String remedy, RemedyRuling.Effect effect) {
        return with(rulings, remedy, effect);
    }

    /** Whether some rule forbids this remedy, whatever others say. */
    public boolean forbidden(String remedy) {
        return !rulings(remedy, RemedyRuling.Effect.FORBID).isEmpty();
    }

    /** Whether some rule requires this remedy, whatever others say. */
    public boolean required(String remedy) {
        return !rulings(remedy, RemedyRuling.Effect.REQUIRE).isEmpty();
    }

    /** Whether this remedy needs somebody's agreement first. */
    public boolean needsApproval(String remedy) {
        return !rulings(remedy, RemedyRuling.Effect.APPROVAL).isEmpty();
    }
}
