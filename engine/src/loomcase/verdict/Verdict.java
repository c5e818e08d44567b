package loomcase.verdict;

import java.util.List;
import java.util.Optional;
import loomcase.plan.NextTest;
import loomcase.policy.RemedyRuling;

/**
 * The answer of this stage: what to do, what speaks for it in money and rules, and what would change it.
 *
 * @param option what to do: an option of the remedies, {@link #NOT_ENOUGH} or {@link #ASK}
 * @param leading the cheapest remedy that no rule forbids, whether or not it is time to act on it; empty when all are
 *     forbidden
 * @param options every remedy weighed, cheapest first, forbidden ones among them
 * @param replacement what speaks for or against replacing the whole harness
 * @param breakEvens where the answer would flip
 * @param confidence share of draws in which the leading remedy is the cheapest, 0 to 1
 * @param reasons why, one sentence each
 * @param conflicts rules that contradict each other, one sentence each
 * @param shopPolicyDiffers whether the shop's own rules changed any ruling
 * @param next of the first tests proposed the first that pays, else the first; empty without one
 * @param worth what that test is worth, empty without one
 * @param rates price of an hour
 * @param currency label of all money
 */
public record Verdict(
        String option,
        Optional<Weighed> leading,
        List<Weighed> options,
        Replacement replacement,
        List<BreakEven> breakEvens,
        double confidence,
        List<String> reasons,
        List<String> conflicts,
        boolean shopPolicyDiffers,
        Optional<NextTest> next,
        Optional<TestWorth> worth,
        Rates rates,
        String currency) {
    /** The answer when a test should come before any repair. */
    public static final String NOT_ENOUGH = "not-enough-evidence";

    /** The answer when rules contradict each other or forbid everything: somebody with the authority has to decide. */
    public static final String ASK = "ask";

    public Verdict {
        options = List.copyOf(options);
        breakEvens = List.copyOf(breakEvens);
        reasons = List.copyOf(reasons);
        conflicts = List.copyOf(conflicts);
    }

    /** Below this a remedy cures nothing, as far as anybody can tell. */
    static final double CURES_NOTHING = 0.005;

    /** Remedies worth a line: those that may cure something, the leading one, and the harness, which is asked about. */
    public List<Weighed> worthALine() {
        return options.stream().filter(this::isWorthALine).toList();
    }

    /** True for one of {@link #worthALine}. */
    public boolean isWorthALine(Weighed w) {
        return w.mends() || leading.filter(w::equals).isPresent() || w.remedy().isHarness();
    }

    /** True when there is something to do now. */
    public boolean settled() {
        return settled(option);
    }

    static boolean settled(String option) {
        return !option.equals(NOT_ENOUGH) && !option.equals(ASK);
    }

    /**
     * One remedy with its money and its rules.
     *
     * @param remedy what is done
     * @param forbidden a rule forbids it
     * @param rulings what the rules say of it
     * @param cost expected cost in its parts
     * @param low 5 % quantile of the cost over what is uncertain
     * @param high 95 % quantile
     * @param wins share of draws in which it is the cheapest one allowed
     * @param cures probability that it cures the complaint
     * @param accessMinutes opening what is still closed and closing all
     * @param workMinutes the work and its checks
     */
    public record Weighed(
            Remedy remedy,
            boolean forbidden,
            List<RemedyRuling> rulings,
            ExpectedCost cost,
            double low,
            double high,
            double wins,
            double cures,
            double accessMinutes,
            double workMinutes) {
        public Weighed {
            rulings = List.copyOf(rulings);
        }

        /** True when it cures something, as far as anybody can tell. */
        boolean mends() {
            return cures >= CURES_NOTHING;
        }

        /** What to keep in mind, rules' words. */
        public List<String> said(RemedyRuling.Effect effect) {
            return rulings.stream()
                    .filter(r -> r.effect() == effect)
                    .map(RemedyRuling::text)
                    .toList();
        }
    }

    /**
     * Replacing the whole harness.
     *
     * @param justified whether it is the answer
     * @param margin expected cost of the harness less that of the cheapest other remedy allowed; below zero when it is cheaper
     * @param words the sentence to say
     */
    public record Replacement(boolean justified, double margin, String words) {}
}
