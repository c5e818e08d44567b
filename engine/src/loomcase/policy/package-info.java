/**
 * Policy: what a repair shop may want to change about reading codes, choosing a repair and filing a claim, kept as rules in
 * plain files.
 *
 * <p><b>In:</b> facts as plain words and numbers, one kind for each {@link loomcase.policy.Family} of rules: codes and
 * places ({@link loomcase.policy.WatchedCode}, {@link loomcase.policy.PlaceFact}, {@link loomcase.policy.HarmFact}),
 * remedies ({@link loomcase.policy.RemedyFact}, {@link loomcase.policy.EvidenceFact}), a claim ({@link
 * loomcase.policy.ClaimFacts}).
 *
 * <p><b>Out:</b> conclusions, each with the rule that says so and its source, in stable order: {@link
 * loomcase.policy.PolicyOutcome} (masks, readings, cautions, rulings on tests), {@link loomcase.policy.RemedyOutcome}
 * (rulings on remedies, and where they conflict), {@link loomcase.policy.ClaimOutcome} (gaps).
 *
 * <p><b>Method:</b> the rules are DRL files in the project's folder {@code rules/}, run by the Drools engine. The build
 * turns them into Java classes ({@link loomcase.policy.RuleCompiler}), because compiling them at each start costs over a
 * second. Each family loads by itself when it is first asked. A shop's own folder is compiled at run time and laid over
 * them: the built-in rules run as ever, conclusions of a rule that the shop replaces or turns off are dropped, and those of
 * the shop's rules are added. So a shop rule sees the facts, not what the built-in rules conclude.
 *
 * <p><b>Must not know:</b> the circuit model, probabilities of faults, money or screens. Rules see facts only.
 *
 * <p><b>Limits:</b> a shop's rule is a program and runs with the rights of Loomcase, so use a folder you trust. Strengths,
 * shares and limits are judgement unless their rule names a source; aircraft and passenger-car sources stand in where none
 * for heavy trucks was found. The rules know nothing of an engine maker's own instructions, which come first.
 *
 * <p><b>Start reading</b> at {@link loomcase.policy.Policy}, then {@link loomcase.policy.RemedyConclusions}, the words that
 * repair rules use, and {@code rules/repair-splices.drl}.
 */
package loomcase.policy;
