package loomcase.policy;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The rules: the built-in ones, with a shop's own laid over them if it has any.
 *
 * <p>Each family of rules is loaded when it is first asked, which costs far more than asking it again; so keep one object
 * and ask it often. It may be shared between threads.
 */
public final class Policy {
    private final Map<Family, FamilyRules> families = new EnumMap<>(Family.class);

    private Policy(Optional<ShopFolder> shop) {
        for (Family family : Family.values()) {
            families.put(family, new FamilyRules(family, shop));
        }
    }

    /** The rules that come with the program. */
    public static Policy builtIn() {
        return new Policy(Optional.empty());
    }

    /**
     * The built-in rules with a shop's folder laid over them: a rule of the same name replaces, a name in {@code
     * rules-off.txt} turns off, any other rule is added.
     *
     * @param folder folder with DRL files of any family, a {@code rules-off.txt}, or both
     * @throws PolicyProblem if the folder cannot be used; the message names file and line
     */
    public static Policy withShopRules(Path folder) {
        return new Policy(Optional.of(ShopFolder.read(folder)));
    }

    /** Names of a family's built-in rules, in order: the names that a shop may replace or turn off. */
    public static List<String> builtInRuleNames(Family family) {
        return List.copyOf(BuiltInRules.names(family));
    }

    /**
     * Runs the rules about codes and places.
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
        Said<Conclusions> said = families.get(Family.CODES).run(concat(codes, places, harms), Conclusions::new);
        PolicyOutcome standard = PolicyOutcome.of(
                said.standard(Conclusions::masks),
                said.standard(Conclusions::readings),
                said.standard(Conclusions::cautions),
                said.standard(Conclusions::tests),
                false);
        if (said.shop().isEmpty()) {
            return standard;
        }
        PolicyOutcome laidOver = PolicyOutcome.of(
                said.laidOver(Conclusions::masks, Mask::rule),
                readings(said),
                said.laidOver(Conclusions::cautions, Caution::rule),
                said.laidOver(Conclusions::tests, TestRuling::rule),
                false);
        return laidOver.differing(!laidOver.concludesAs(standard));
    }

    /** A kind and condition that the shop reads is read by the shop alone, or its shares would be counted twice. */
    private static List<FmiReading> readings(Said<Conclusions> said) {
        List<FmiReading> own = said.shop().map(shop -> shop.words().readings()).orElse(List.of());
        Set<String> reread = own.stream().map(FmiReading::condition).collect(Collectors.toSet());
        return said.laidOver(Conclusions::readings, FmiReading::rule).stream()
                .filter(reading -> own.contains(reading) || !reread.contains(reading.condition()))
                .toList();
    }

    /**
     * Runs the repair rules.
     *
     * @param evidence how much is known
     * @param remedies every remedy that the verdict weighs, each with an id of its own
     * @throws PolicyProblem if the shop's repair rules cannot be compiled or run; the message names file and line
     */
    public RemedyOutcome remedies(EvidenceFact evidence, List<RemedyFact> remedies) {
        Said<RemedyConclusions> said =
                families.get(Family.REMEDY).run(concat(List.of(evidence), remedies), RemedyConclusions::new);
        return RemedyOutcome.of(said);
    }

    /**
     * Runs the claim rules.
     *
     * @param claim everything that the claim says and shows
     * @throws PolicyProblem if the shop's claim rules cannot be compiled or run; the message names file and line
     */
    public ClaimOutcome claim(ClaimFacts claim) {
        return ClaimOutcome.of(families.get(Family.CLAIM).run(claim.all(), ClaimConclusions::new));
    }

    private static List<Object> concat(List<?>... lists) {
        return Stream.of(lists).<Object>flatMap(List::stream).toList();
    }
}
