package loomcase.policy;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The rules for reading codes: the built-in ones, with a shop's own laid over them if it has any.
 *
 * <p>Loading costs far more than deciding, so keep one object and ask it often; it may be shared between threads.
 */
public final class Policy {
    private final RuleBase builtIn;
    private final Optional<ShopRules> shop;

    private Policy(RuleBase builtIn, Optional<ShopRules> shop) {
        this.builtIn = builtIn;
        this.shop = shop;
    }

    /** The rules that come with the program. */
    public static Policy builtIn() {
        return new Policy(BuiltInRules.load(), Optional.empty());
    }

    /**
     * The built-in rules with a shop's folder laid over them: a rule of the same name replaces, a name in {@code
     * rules-off.txt} turns off, any other rule is added.
     *
     * @param folder folder with DRL files, a {@code rules-off.txt}, or both
     * @throws PolicyProblem if the folder cannot be used; the message names file and line
     */
    public static Policy withShopRules(Path folder) {
        RuleBase builtIn = BuiltInRules.load();
        return new Policy(builtIn, Optional.of(ShopRules.read(folder, builtIn.names())));
    }

    /** Names of the built-in rules, in order: the names that a shop may replace or turn off. */
    public List<String> builtInRuleNames() {
        return List.copyOf(builtIn.names());
    }

    /**
     * Runs all rules over the facts.
     *
     * @param codes every code that the control unit can set
     * @param places every place that a caution may be wanted for; may be empty
     * @throws PolicyProblem if a shop rule says something that cannot be, such as shares that do not add up
     */
    public PolicyOutcome decide(List<WatchedCode> codes, List<PlaceFact> places) {
        return decide(codes, places, List.of());
    }

    /**
     * The same with rulings on tests.
     *
     * @param harms every kind of harm that a test may do
     */
    public PolicyOutcome decide(List<WatchedCode> codes, List<PlaceFact> places, List<HarmFact> harms) {
        Conclusions defaults = new Conclusions();
        builtIn.run(codes, places, harms, Set.of(), defaults);
        PolicyOutcome standard =
                outcome(defaults.masks(), defaults.readings(), defaults.cautions(), defaults.tests(), false);
        return shop.map(rules -> overlay(standard, rules, rules.run(codes, places, harms)))
                .orElse(standard);
    }

    private static PolicyOutcome overlay(PolicyOutcome standard, ShopRules shop, Conclusions added) {
        Predicate<String> stands = rule -> !shop.displaces(rule);
        Set<String> reread = added.readings().stream().map(Policy::condition).collect(Collectors.toSet());
        PolicyOutcome laidOver = outcome(
                join(standard.masks().stream().filter(mask -> stands.test(mask.rule())), added.masks()),
                join(
                        standard.readings().stream()
                                .filter(reading -> stands.test(reading.rule()) && !reread.contains(condition(reading))),
                        added.readings()),
                join(standard.cautions().stream().filter(caution -> stands.test(caution.rule())), added.cautions()),
                join(standard.tests().stream().filter(test -> stands.test(test.rule())), added.tests()),
                false);
        return laidOver.concludesAs(standard)
                ? laidOver
                : outcome(laidOver.masks(), laidOver.readings(), laidOver.cautions(), laidOver.tests(), true);
    }

    private static String condition(FmiReading reading) {
        return reading.circuitKind() + " " + reading.conditionFmi();
    }

    private static <T> List<T> join(Stream<T> standing, List<T> added) {
        return Stream.concat(standing, added.stream()).toList();
    }

    private static PolicyOutcome outcome(
            List<Mask> masks,
            List<FmiReading> readings,
            List<Caution> cautions,
            List<TestRuling> tests,
            boolean differs) {
        return new PolicyOutcome(
                masks, readings, cautions, tests, differs, PolicyOutcome.ruleNames(masks, readings, cautions, tests));
    }
}
