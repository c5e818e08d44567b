/**
 * Many drawn cases whose truth is known: how often and how surely the engine is right, and what that saves.
 *
 * <p>In comes a circuit; out come scores. A case is planted ({@code CaseDraw}) in a world that differs from what the engine
 * assumes ({@code World}): parts off by their tolerance, limits of the control unit off nominal, codes missed and strayed at
 * other rates, faults of other sizes than the engine knows ({@code Sizes}), drawn with and against the priors. Its voltages come from ngspice or from our solver without its
 * shortcuts ({@code Truth}), the codes from drawn limits ({@code ControlUnitLogic}); the engine sees the codes only.
 *
 * <p><b>To the right repair.</b> The first cases of each kind are worked through ({@code Play}) by the planner and by three
 * other ways of working ({@link loomcase.study.Working}): the same cases, the same replies to the same test ({@code
 * Replies} says what of them comes from the world and what from our own model), the same stopping: no test is worth its
 * minutes by the planner's reckoning. Then each does what the verdict finds cheapest, and makes the check run. Where a fault
 * is left that shows a code, the visit goes on with it: codes as read then, the work as evidence ({@code Handiwork}), tests
 * again, at most four repairs. Where one is left that shows none, the engine comes back; that is charged a fresh diagnosis,
 * standing still and the right remedy, as {@link loomcase.verdict.Hindsight} does from the verdict's own formula. Minutes and
 * money run until everything is right: tests, access, work, parts, standing still at the circuit's rates. With sensors first
 * the devices that the codes name are new before anything is tested.
 *
 * <p><b>Wrong and missed harnesses</b> ({@link loomcase.verdict.HarnessNeed}). With all weight on the truth the verdict's
 * formula gives the cost of every remedy. The truth calls for the whole harness when that costs less than the cheapest smaller
 * remedy, of several faults less than the sum of one such remedy for each; or when no smaller one is allowed by the repair
 * rules, asked with everything known: how many wires are hurt, what the open loom shows, no want of evidence. The study counts
 * those of the second sort apart.
 * A verdict of full harness where the truth does not call for it is a wrong one; a verdict of something smaller where it
 * does is a missed one; "not enough evidence" and "ask" are neither. So what is wrong follows from {@code
 * rules/repair-costs.csv}, most of which is judgement.
 *
 * <p><b>What the open loom shows.</b> Where something smaller than the harness is chosen and the rules let nobody mend so much
 * so, the loom is opened, the damage seen, and the harness fitted in the same visit; the verdict counts as one that did not mend.
 *
 * <p><b>Limits.</b> A remedy mends a fault surely where it does so at even odds, else never; the odds that it does not are
 * paid for. A comeback's diagnosis finds what is left. Nobody makes slips at a repair. After a repair that changed nothing all
 * tests are kept but those that looked at or moved its place ({@link loomcase.intake} leaves out more). Readings are taken
 * without gross errors. A true condition of the engine has the value that the circuit file gives it.
 *
 * <p><b>On all cores.</b> A case needs nothing of another: kinds run at once, dozens are drawn and cases worked by {@code
 * Worker}s, each with circuit, networks and predictions of its own, and results are taken in the order of their numbers.
 *
 * <p>It must not know how the answer is shown. Start at {@code Study}, then {@code Play}.
 */
package loomcase.study;
