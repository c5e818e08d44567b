package loomcase.policy;

import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A family of rules: rules that see the same facts and use the same words. A rule file says its family in its first line,
 * {@code package loomcase.rules.FAMILY}.
 */
public enum Family {
    /** Reading codes, cautions at a place, tests that do harm. */
    CODES(Conclusions.class, WatchedCode.class, PlaceFact.class, HarmFact.class),
    /** Which remedies may, must or may not be chosen. */
    REMEDY(RemedyConclusions.class, RemedyFact.class, EvidenceFact.class),
    /** Whether a claim is complete and free of contradictions. */
    CLAIM(
            ClaimConclusions.class,
            ClaimCase.class,
            ClaimCodes.class,
            ClaimReading.class,
            ClaimWork.class,
            ClaimPhoto.class,
            ClaimPart.class,
            ClaimLabour.class,
            ClaimAccess.class,
            ClaimApproval.class);

    private final Class<? extends Speech> words;
    private final List<Class<? extends Record>> facts;

    @SafeVarargs
    @SuppressWarnings("varargs")
    Family(Class<? extends Speech> words, Class<? extends Record>... facts) {
        this.words = words;
        this.facts = List.of(facts);
    }

    /** What the rules see. */
    List<Class<? extends Record>> facts() {
        return facts;
    }

    /** The words that rules may say after {@code conclude.}, in order. */
    List<String> words() {
        return Arrays.stream(words.getDeclaredMethods())
                .filter(method -> Modifier.isPublic(method.getModifiers()))
                .map(Method::getName)
                .distinct()
                .sorted()
                .toList();
    }

    /** Package that every rule file of this family declares. */
    String drlPackage() {
        return "loomcase.rules." + word();
    }

    /** Resource with the names of the classes to start the built-in rules from, one a line. */
    String models() {
        return "/rules/" + word() + "-models.txt";
    }

    /** Resource with the names of the built-in rules, one a line, so that names can be checked without loading rules. */
    String ruleNames() {
        return "/rules/" + word() + "-rules.txt";
    }

    /** Every class of this project that a compiled rule of this family leans on. */
    List<Class<?>> named() {
        return Stream.concat(facts.stream(), Stream.of(words)).collect(Collectors.toList());
    }

    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    static Optional<Family> ofPackage(String drlPackage) {
        return Arrays.stream(values())
                .filter(family -> family.drlPackage().equals(drlPackage))
                .findFirst();
    }
}
