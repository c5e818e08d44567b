package loomcase.plan;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.meter.Harm;
import loomcase.meter.Outcomes;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.meter.TestFacts;
import loomcase.model.Edit;
import loomcase.rank.Ranking;

/**
 * A ranking made into a decision.
 *
 * @param left hypotheses planned for, in the decision's order
 * @param tests the decision's tests by id
 */
record Prepared(Decision decision, List<Ranking.Member> left, Map<String, Tried> tests) {
    /** Share from which a condition of the engine leads. */
    private static final double LEADS = 0.5;

    /**
     * A test that parts the hypotheses.
     *
     * @param steps ids of every access step it needs, those needed first included
     * @param outcomes in the decision's order
     */
    record Tried(Test test, TestFacts facts, List<String> steps, List<Outcomes.Likely> outcomes) {
        List<String> closed(Collection<String> open) {
            return steps.stream().filter(s -> !open.contains(s)).toList();
        }
    }

    /** True for a test that measures a voltage. */
    boolean isVoltage(Decision.Test t) {
        return tests.containsKey(t.id()) && tests.get(t.id()).test() instanceof Test.Volts;
    }

    /** Id of the test that shows the condition of the engine which is as probable as all else together, if there is one. */
    Optional<String> leadingCondition() {
        Map<String, Double> share = new LinkedHashMap<>();
        for (int h = 0; h < left.size(); h++) {
            double weight = decision.weight()[h];
            Subject all = left.get(h).subject();
            for (Subject one : all.both().isEmpty() ? List.of(all) : all.both())
                if (one.isCondition() && one.edits().get(0) instanceof Edit.Value v)
                    share.merge(shows(v), weight, Double::sum);
        }
        return share.entrySet().stream()
                .filter(e -> e.getValue() >= LEADS)
                .max(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey);
    }

    /** Id of the test that shows a condition: a gauge, of a supply its voltage where the engine is as the condition has it. */
    private String shows(Edit.Value condition) {
        return switch (condition.quantity()) {
            case CELSIUS, FRACTION, OHMS, OHMS_FACTOR -> new Test.Gauge(condition.device()).id();
            case VOLTS -> atPosts(true);
            case RESTING_VOLTS -> atPosts(false);
        };
    }

    private String atPosts(boolean running) {
        return tests.values().stream()
                .filter(t -> t.facts().isAtPosts() && t.facts().harms().contains(Harm.MOVING_PARTS) == running)
                .map(t -> t.test().id())
                .findFirst()
                .orElse("");
    }
}
