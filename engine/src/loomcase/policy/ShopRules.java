package loomcase.policy;

import java.util.List;
import loomcase.Once;

/** A shop's own rules of one family; they are compiled when first run. */
final class ShopRules {
    private final Family family;
    private final ShopFolder folder;
    private final Once<RuleBase> rules;

    ShopRules(Family family, ShopFolder folder) {
        this.family = family;
        this.folder = folder;
        this.rules = new Once<>(() -> ShopCompiler.compile(folder, family));
    }

    /** Whether a built-in rule of this name gives way. */
    boolean displaces(String builtInRule) {
        return folder.off().contains(builtInRule) || folder.heads().containsKey(builtInRule);
    }

    /**
     * What the shop's rules say, without those turned off.
     *
     * @param words that nobody has used yet
     * @return the same words, used
     * @throws PolicyProblem if a rule does not compile or says something that cannot be
     */
    <C extends Speech> C run(List<?> facts, C words) {
        RuleBase compiled = rules.get();
        try {
            compiled.run(facts, folder.off(), words);
            words.checkTogether();
        } catch (PolicyProblem e) {
            throw e;
        } catch (Speech.Contradiction e) {
            throw new PolicyProblem(folder.at(e.rule()) + e.getMessage());
        } catch (RuntimeException e) {
            String message = String.valueOf(deepest(e).getMessage());
            String start = words.speaker().isEmpty() ? folder.atCondition(family, message) : folder.at(words.speaker());
            throw new PolicyProblem(start + message);
        }
        return words;
    }

    private static Throwable deepest(Throwable problem) {
        return problem.getCause() == null ? problem : deepest(problem.getCause());
    }
}
