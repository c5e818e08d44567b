package loomcase.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.policy.RemedyRuling;

/** Says why, in sentences, as the decision goes along. */
final class Reasoning {
    private final Situation situation;
    private final String currency;
    private final List<String> reasons = new ArrayList<>();

    Reasoning(Situation situation, String currency) {
        this.situation = situation;
        this.currency = currency;
    }

    List<String> reasons() {
        return reasons;
    }

    String nothingMends() {
        reasons.add(
                "no repair mends by itself what is most probable now; see to one fault, clear the codes and read them"
                        + " again");
        return Verdict.NOT_ENOUGH;
    }

    String allForbidden() {
        if (situation.isCodesOnly()) {
            reasons.add("the rules forbid every remedy that cures until something has been measured or looked at");
            return Verdict.NOT_ENOUGH;
        }
        reasons.add("the rules forbid every remedy; somebody with the authority has to decide");
        return Verdict.ASK;
    }

    String conflict() {
        reasons.add(
                "rules contradict each other about a remedy that matters; somebody with the authority has to decide");
        return Verdict.ASK;
    }

    String mostlyOutside() {
        reasons.add("with " + percent(situation.ranking().unexplained())
                + " probability nothing in this circuit explains what was seen; no repair of it is justified yet");
        return Verdict.NOT_ENOUGH;
    }

    String testFirst(TestWorth worth, Verdict.Weighed leading) {
        reasons.add("the next test costs " + money(worth.cost()) + " and is expected to save " + money(worth.saving())
                + " over acting now");
        if (situation.isCodesOnly()) reasons.add("only codes are known so far; nothing was measured or looked at");
        reasons.add("if nothing more could be tested, " + leading.remedy().option() + " would be the least cost");
        return Verdict.NOT_ENOUGH;
    }

    /** @param words of the test that the plan begins with, where it is another than the one that pays */
    void planBeginsWith(String words) {
        reasons.add("the plan, which counts minutes, begins with another test, which is not worth its price by itself: "
                + words);
    }

    String harnessOnCodesAlone(Verdict.Weighed leading) {
        reasons.add("only codes speak for replacing the harness, and it wins in " + percent(leading.wins())
                + " of the draws; below " + percent(VerdictMaker.SURE) + " a harness is not replaced on codes alone");
        return Verdict.NOT_ENOUGH;
    }

    String act(Verdict.Weighed leading, Optional<TestWorth> worth) {
        reasons.add(leading.remedy().option() + " has the least expected cost, "
                + money(leading.cost().total()) + ", and is cheapest in " + percent(leading.wins()) + " of the draws");
        worth.ifPresent(w -> reasons.add(
                "the next test would cost " + money(w.cost()) + " and is expected to save only " + money(w.saving())));
        if (!leading.said(RemedyRuling.Effect.APPROVAL).isEmpty())
            reasons.add("it needs the agreement of somebody with the authority");
        return leading.remedy().option();
    }

    /** @param remedies ids of what was done before the codes were read last */
    void doneBefore(List<String> remedies) {
        if (!remedies.isEmpty())
            reasons.add("done already, with codes there after it, and so taken to mend less if done again: "
                    + String.join(", ", remedies));
    }

    /**
     * For or against the whole harness, as plainly one way as the other.
     *
     * @param settled whether it is time to act on what leads
     */
    Verdict.Replacement replacement(List<Verdict.Weighed> options, Optional<Verdict.Weighed> leading, boolean settled) {
        Verdict.Weighed harness =
                options.stream().filter(o -> o.remedy().isHarness()).findFirst().orElseThrow();
        Optional<Verdict.Weighed> other = options.stream()
                .filter(o -> o != harness && !o.forbidden() && o.mends())
                .findFirst();
        double margin = harness.cost().total()
                - other.map(o -> o.cost().total()).orElse(harness.cost().total());
        boolean leads = leading.filter(l -> l == harness).isPresent();
        if (leads && !settled)
            return new Verdict.Replacement(
                    false,
                    margin,
                    "Full replacement is not justified yet: it leads, and it is too early to act on that.");
        String why = leads ? speaksFor(harness, other, margin) : speaksAgainst(harness, other, margin);
        return new Verdict.Replacement(
                leads, margin, "Full replacement is " + (leads ? "" : "not ") + "justified: " + why);
    }

    private String speaksFor(Verdict.Weighed harness, Optional<Verdict.Weighed> other, double margin) {
        String required = harness.said(RemedyRuling.Effect.REQUIRE).isEmpty() ? "" : "a rule requires it, and ";
        return required
                + other.map(o -> "it is expected to cost " + money(-margin) + " less than "
                                + o.remedy().id() + ".")
                        .orElse("nothing else that mends anything is allowed.");
    }

    private String speaksAgainst(Verdict.Weighed harness, Optional<Verdict.Weighed> other, double margin) {
        if (other.isPresent())
            return "it is expected to cost " + money(margin) + " more than "
                    + other.get().remedy().id() + ".";
        return harness.forbidden() ? "it is forbidden, as is all else that mends anything." : "it mends nothing here.";
    }

    private String money(double amount) {
        return VerdictMaker.money(amount, currency);
    }

    private static String percent(double share) {
        return Math.round(share * 100) + " %";
    }
}
