/**
 * Policy: what a repair shop may want to change about reading codes, kept as rules in plain files.
 *
 * <p><b>In:</b> facts as plain words and numbers: every code that the control unit can set ({@link
 * loomcase.policy.WatchedCode}) and every place a technician may work at ({@link loomcase.policy.PlaceFact}).
 *
 * <p><b>Out:</b> {@link loomcase.policy.PolicyOutcome}: which code keeps which other from being shown, how a crossed
 * threshold is shown on each kind of circuit, and what to warn of; each with the rule that says so, and in stable order.
 *
 * <p><b>Method:</b> the rules are DRL files in the project's folder {@code rules/}, run by the Drools engine. The build
 * turns them into Java classes ({@link loomcase.policy.RuleCompiler}), because compiling them at each start costs over a
 * second. A shop's own folder is compiled at run time and laid over them: the built-in rules run as ever, conclusions of
 * a rule that the shop replaces or turns off are dropped, and those of the shop's rules are added. So a shop rule sees
 * the facts, not what the built-in rules conclude.
 *
 * <p><b>Must not know:</b> the circuit model, probabilities of faults, money or screens. Rules see facts only.
 *
 * <p><b>Limits:</b> a shop's rule is a program and runs with the rights of Loomcase, so use a folder you trust. Strengths
 * and shares are judgement unless their rule names a source.
 *
 * <p><b>Start reading</b> at {@link loomcase.policy.Policy}, then {@link loomcase.policy.Conclusions}, the words that rules
 * use, and {@code rules/masking.drl}.
 */
package loomcase.policy;
