package loomcase.policy;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import loomcase.Once;

/** The rules of one family, the built-in ones and the shop's; each is loaded or compiled when it is first asked. */
final class FamilyRules {
    private final Once<RuleBase> builtIn;
    private final Optional<ShopRules> shop;

    FamilyRules(Family family, Optional<ShopFolder> shop) {
        this.builtIn = new Once<>(() -> BuiltInRules.load(family));
        this.shop = shop.map(folder -> new ShopRules(family, folder));
    }

    /**
     * Runs both over the same facts: a shop's rule sees the facts, not what the built-in rules conclude.
     *
     * @param blank makes words that nobody has used yet
     * @throws PolicyProblem if the shop's rules cannot be compiled or one says something that cannot be
     */
    <C extends Speech> Said<C> run(List<?> facts, Supplier<C> blank) {
        C standard = blank.get();
        builtIn.get().run(facts, Set.of(), standard);
        return new Said<>(standard, shop.map(rules -> new Said.OverIt<>(rules, rules.run(facts, blank.get()))));
    }
}
