/**
 * Sentences of rules and of the verdict in another language.
 *
 * <p><b>In:</b> an English sentence that a built-in rule or the verdict said, with the figures of a case in it, and the name
 * of the rule. <b>Out:</b> the same sentence in the language asked for, or the sentence itself.
 *
 * <p><b>Method.</b> Rules are plain text that a foreman reads and changes, so they name no keys. Each English sentence stands
 * once more as a pattern in {@code words.properties}, under the name of its rule, and in each other language under the same
 * key. A sentence is matched against its pattern as a whole; what stands in the places of the arguments goes into the other
 * pattern. A sentence that does not match, such as a shop's own, keeps its words. A test holds the English patterns against
 * the rule files, so a rule that is changed without its pattern fails.
 *
 * <p>Names of rules are not translated: they are what a rule is looked up by.
 *
 * <p><b>Must not know:</b> rules, verdicts, claims. Start at {@link loomcase.translate.Translator}.
 */
package loomcase.translate;
