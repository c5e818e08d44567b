package loomcase.policy;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** The words a repair rule may say after {@code then}: {@code forbid}, {@code require}, {@code approval}, {@code caution}. */
public final class RemedyConclusions extends Speech {
    private final Set<RemedyRuling> rulings = new LinkedHashSet<>();

    public RemedyConclusions() {}

    /** This remedy may not be chosen. */
    public void forbid(RemedyFact remedy, String text) {
        say(remedy, RemedyRuling.Effect.FORBID, text);
    }

    /** This remedy must be chosen when the fault is where it cures it; smaller ones do not do. */
    public void require(RemedyFact remedy, String text) {
        say(remedy, RemedyRuling.Effect.REQUIRE, text);
    }

    /** This remedy may be chosen once somebody with the authority agrees. */
    public void approval(RemedyFact remedy, String text) {
        say(remedy, RemedyRuling.Effect.APPROVAL, text);
    }

    /** This remedy may be chosen with this in mind. */
    public void caution(RemedyFact remedy, String text) {
        say(remedy, RemedyRuling.Effect.CAUTION, text);
    }

    private void say(RemedyFact remedy, RemedyRuling.Effect effect, String text) {
        rulings.add(new RemedyRuling(remedy.id(), effect, text, speaker(), source()));
    }

    List<RemedyRuling> rulings() {
        return List.copyOf(rulings);
    }
}
