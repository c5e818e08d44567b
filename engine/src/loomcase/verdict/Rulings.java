package loomcase.verdict;

import java.util.ArrayList;
import java.util.List;
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

    /** With what is said of both halves said of every remedy that is made of two. */
    Rulings withJoint(List<Remedy> remedies) {
        List<RemedyRuling> all = new ArrayList<>(rulings);
        for (Remedy r : remedies)
            for (Remedy half : r.halves())
                for (RemedyRuling said : of(half.id())) {
                    RemedyRuling same = said.about(r.id());
                    if (!all.contains(same)) all.add(same);
                }
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
