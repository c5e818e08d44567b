package loomcase.policy;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * What the rules of one family said about some facts.
 *
 * @param <C> the family's words
 * @param builtIn what the built-in rules said
 * @param shop what the shop's rules said; empty where there is no shop
 */
record Said<C extends Speech>(C builtIn, Optional<OverIt<C>> shop) {

    /** The shop's rules and what they said. */
    record OverIt<C extends Speech>(ShopRules rules, C words) {}

    /** One kind of conclusion as the built-in rules alone give it. */
    <T> List<T> standard(Function<C, List<T>> conclusions) {
        return conclusions.apply(builtIn);
    }

    /** One kind of conclusion with the shop laid over: those of displaced rules go, those of the shop's come. */
    <T> List<T> laidOver(Function<C, List<T>> conclusions, Function<T, String> rule) {
        Stream<T> standing = standard(conclusions).stream().filter(each -> !displaced(rule.apply(each)));
        Stream<T> added = shop.stream().flatMap(over -> conclusions.apply(over.words()).stream());
        return Stream.concat(standing, added).toList();
    }

    /**
     * The same, with what the shop changed.
     *
     * @param order of the conclusions, total
     */
    <T> Laid<T> lay(Function<C, List<T>> conclusions, Function<T, String> rule, Comparator<T> order) {
        List<T> standard = standard(conclusions).stream().sorted(order).toList();
        List<T> laidOver = laidOver(conclusions, rule).stream().sorted(order).toList();
        List<String> displaced = names(standard.stream().map(rule).filter(this::displaced));
        List<String> added = names(shop.stream()
                .flatMap(over -> conclusions.apply(over.words()).stream())
                .map(rule));
        return new Laid<>(laidOver, !laidOver.equals(standard), displaced, added);
    }

    /**
     * Conclusions in order, with what the shop changed.
     *
     * @param differs whether they are not those of the built-in rules alone
     * @param displaced built-in rules that would have said something here, but for the shop; by name
     * @param added rules of the shop that said something here; by name
     */
    record Laid<T>(List<T> conclusions, boolean differs, List<String> displaced, List<String> added) {}

    private static List<String> names(Stream<String> rules) {
        return rules.distinct().sorted().toList();
    }

    private boolean displaced(String builtInRule) {
        return shop.map(over -> over.rules().displaces(builtInRule)).orElse(false);
    }
}
