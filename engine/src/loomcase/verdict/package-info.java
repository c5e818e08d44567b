/**
 * What to do: repair in place, replace a section, replace the harness, a part at its end, nothing, or test first.
 *
 * <p><b>In:</b> a ranking with what was seen, opened and repaired ({@link loomcase.verdict.Situation}); the circuit with its
 * prices; {@code rules/repair-costs.csv}; what the repair rules say ({@link loomcase.verdict.Rulings}); the next test.
 * <b>Out:</b> a {@link loomcase.verdict.Verdict}: option, expected cost of every remedy in its parts with an interval, what
 * would flip it, reasons, and the remedy as it is made. Nothing of it is listed by hand: remedies follow from the places of
 * the posterior.
 *
 * <p><b>Money.</b> For a remedy a and hypotheses h with probability π:
 *
 * <pre>
 * E(a) = M(a) + Σ_h π_h · [ (1 − f_ha) · C_ha  +  f_ha · ( b_a · (K + M'(a))  +  g_ha · (K + H_a) ) ]
 *
 * M(a)   bill now: access still closed and closing all that is open, work, checks, parts, sealing; each minute costs
 *        labour and downtime
 * M'(a)  the same with everything closed again
 * f_ha   probability that a cures h: share of h that lies where a works × success of such work for such a fault, × {@code
 *        share.again} for each time that the very same was done before the codes were read last
 * K      a comeback: fresh diagnosis d (labour and downtime) and hours of standing still
 * s_ha   probability that h, not cured by a, shows a code at the check run, so that the visit goes on: by whether it
 *        comes and goes, and whether any code is active; 0 where nothing was done
 * C_ha   not cured: a fresh diagnosis d, standing still with 1 − s_ha, then the least E(x) given h with everything closed
 *        of the other remedies x that cure h at even odds; for what none cures, finding and curing it outside this circuit
 * b_a    the repair fails within the warranty: base rate by kind × factors of its zone; 1 − (1 − b)^n for n circuits
 * g_ha   further damage is left behind: by what was seen at the place or its branch, or what h itself leaves; 0 for a new
 *        stretch and for parts at the ends
 * H_a    least M'(x) of the sections or the harness that hold the branches beside a, and of a itself once more where nothing
 *        was seen that spreads
 * </pre>
 *
 * <p>The sum runs over the whole posterior: every member of every suspect, the unlisted mass where the roll-up has it, what
 * is outside the model. Figures enter at their means; since E is nearly linear in each, that is nearly its mean.
 *
 * <p><b>Two faults at once.</b> A pair h of faults i and j, where one lies does not hang on the other, so with
 * {@code u = Σ_i s_i f_ia} and {@code v = Σ_j t_j f_ja} a cures both with {@code u·v}, and what stands in brackets becomes
 *
 * <pre>
 * v · Σ_i s_i (1 − f_ia) C_ia + u · Σ_j t_j (1 − f_ja) C_ja + (1 − u)(1 − v) · C_neither + what fails and is left behind
 * </pre>
 *
 * where the code of either half may show what is left. A remedy
 * of two (<b>two-repairs</b>, {@link loomcase.verdict.Remedy#halves}) is made of the cheapest remedies for the halves of the
 * likeliest pairs ({@code Joining}): each access step once, the work and parts of both, {@code share.second-check} of a check
 * for the second, each half failing and leaving damage behind for itself. It is the answer where that costs less than one now
 * and the other after a fresh look. What a rule says of a half it says of both. Where one of the two is a true
 * condition of the engine, the repair of the other is also weighed with the engine seen to in the same visit, which
 * costs nothing here. This is expected cost over a tree of outcomes, as in any textbook of decision analysis (Raiffa,
 * "Decision Analysis", 1968; from memory).
 *
 * <p><b>Bounds.</b> A fresh diagnosis is taken to find h, and the remedy after the next to succeed, so C is a bound from below,
 * more so the weaker a is; H takes the next remedy to succeed. A remedy that cures nothing is therefore never the answer,
 * however cheaply it would buy a fresh look. Minutes of
 * sections and harness are the circuit file's and hold their access.
 *
 * <p><b>Interval.</b> {@link loomcase.verdict.Samples}: figures from triangles, base rates of families from a lognormal
 * factor, always the same draws; 5 % and 95 % quantile; confidence is the share of draws in which the answer wins.
 *
 * <p><b>Test first</b> when the next test is expected to save more than it costs ({@link loomcase.verdict.TestWorth}):
 * value of information, one test ahead, of the first three that the planner proposes the first that pays (Howard,
 * "Information value theory", IEEE Transactions SSC 2(1), 1966; from memory). The test is the planner's own. Of two
 * faults at once each outcome has shares of its own of what either may be, and remedies are joined anew for them
 * ({@code Outlook}). <b>Rules</b> come last: forbidden remedies stay in the table, a required one takes the cure away
 * from smaller ones, a remedy both required and forbidden makes the answer "ask".
 *
 * <p><b>Known limits.</b> At most two remedies at once, for at most three pairs, each with a share of 0.05 or more; the
 * harness is not joined with a part at its end. The time stated for a section holds its access, so steps that a second
 * repair of the same visit shares with it count twice. Where clips stand is not in the circuit file; they
 * are taken as evenly spread and no rule is held against that. One test ahead undervalues tests that
 * only pay together. Where a wire is hurt is not known unless somebody saw it; then finding it costs its own minutes.
 *
 * <p><b>Must not know:</b> screens, files of cases, Drools. Start at {@link loomcase.verdict.VerdictMaker}, then {@code
 * Stakes} and {@code Sequel} (the formula) and {@code Remedies}.
 */
package loomcase.verdict;
