package loomcase.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import loomcase.policy.EvidenceFact;
import loomcase.policy.RemedyFact;
import loomcase.policy.RemedyRuling;

/**
 * What the rules say about the remedies of a verdict.
 *
 * @param rulings every ruling, contradicting ones among them
 * @param shopPolicyDiffers whether the shop's own rules changed any of it
 */
public record Rulings(List<RemedyRuling> rulings, boolean shopPolicyDiffers) {
    /** No rules. */
    public static final Rulings NONE = new Rulings(List.of(), false);

    /** Asks the rules. */
    public interface Rules extends BiFunction<EvidenceFact, List<RemedyFact>, Rulings> {}

    public Rulings {
        rulings = List.copyOf(rulings);
    }

    /**
     * With what is said of single remedies said of every remedy that is made of them.
     *
     * @param made ids of the single remedies by the id of what is made of them
     */
    Rulings withJoint(Map<String, List<String>> made) {
        List<RemedyRuling> all = new ArrayList<>(rulings);
        made.forEach((id, parts) -> {
            for (String part : parts)
                for (RemedyRuling said : of(part)) {
                    RemedyRuling same = said.about(id);
                    if (!all.contains(same)) all.add(same);
                }
        });
        return new Rulings(all, shopPolicyDiffers);
    }

    /** What is said about one remedy. */
    public List<RemedyRuling> of(String remedy) {
        return rulings.stream().filter(r -> r.remedy().equals(remedy)).toList();
    }

    boolean says(String remedy, RemedyRuling.Effect effect) {
        return rulings.stream().anyMatch(r -> r.remedy().equals(remedy) && r.effect() == effect);
    }
}
