package loomcase.policy;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What the rules conclude from one set of facts. All lists are sorted, so equal facts and rules give equal outcomes.
 *
 * @param masks by hiding code, then hidden code, then rule
 * @param readings by circuit kind, condition, then falling weight; a kind and condition that is absent is shown as it is
 * @param cautions by place, then rule
 * @param tests rulings on tests, by harm, then rule
 * @param shopPolicyDiffers whether the shop's rules changed any conclusion for these facts
 * @param ruleNamesFired names of the rules that a conclusion here rests on, by name
 */
public record PolicyOutcome(
        List<Mask> masks,
        List<FmiReading> readings,
        List<Caution> cautions,
        List<TestRuling> tests,
        boolean shopPolicyDiffers,
        List<String> ruleNamesFired) {
    public PolicyOutcome {
        masks = masks.stream().sorted(Mask.ORDER).toList();
        readings = readings.stream().sorted(FmiReading.ORDER).toList();
        cautions = cautions.stream().sorted(Caution.ORDER).toList();
        tests = tests.stream().sorted(TestRuling.ORDER).toList();
        ruleNamesFired = ruleNamesFired.stream().sorted().toList();
        requireWholeWeights(readings);
    }

    private static void requireWholeWeights(List<FmiReading> readings) {
        readings.stream()
                .collect(Collectors.groupingBy(FmiReading::condition, Collectors.summingDouble(FmiReading::weight)))
                .forEach((key, total) -> {
                    if (Math.abs(total - 1) > 1e-9) {
                        throw new IllegalArgumentException("weights of " + key + " sum to " + total + ", not to 1");
                    }
                });
    }

    /** Whether masks, readings and cautions are the same, whatever rules fired. */
    boolean concludesAs(PolicyOutcome other) {
        return masks.equals(other.masks)
                && readings.equals(other.readings)
                && cautions.equals(other.cautions)
                && tests.equals(other.tests);
    }

    /** An outcome with the names of the rules that these conclusions rest on, each once. */
    static PolicyOutcome of(
            List<Mask> masks,
            List<FmiReading> readings,
            List<Caution> cautions,
            List<TestRuling> tests,
            boolean differs) {
        List<String> names = Stream.of(
                        masks.stream().map(Mask::rule),
                        readings.stream().map(FmiReading::rule),
                        cautions.stream().map(Caution::rule),
                        tests.stream().map(TestRuling::rule))
                .flatMap(each -> each)
                .distinct()
                .toList();
        return new PolicyOutcome(masks, readings, cautions, tests, differs, names);
    }

    /** The same conclusions, said to differ from the built-in rules' or not. */
    PolicyOutcome differing(boolean differs) {
        return new PolicyOutcome(masks, readings, cautions, tests, differs, ruleNamesFired);
    }

    /** Kinds of harm for which tests are never proposed; where rules disagree, forbidding wins. */
    public Set<String> forbiddenHarms() {
        return tests.stream()
                .filter(TestRuling::forbidden)
                .map(TestRuling::harm)
                .collect(Collectors.toSet());
    }

    /** What to warn of before tests that may do this harm. */
    public List<String> warnings(String harm) {
        return tests.stream()
                .filter(t -> t.harm().equals(harm))
                .map(TestRuling::text)
                .toList();
    }
}
