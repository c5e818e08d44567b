/**
 * Proof that the engine is fixed: what must be measured and seen before a case may be closed, and whether it was.
 *
 * <p><b>In:</b> a circuit and a case journal. <b>Out:</b> a {@link loomcase.proof.Proof}: every check with its limit, the
 * lines of the case that answer it, and one word: proven, not proven (something is missing), disproven (something
 * contradicts).
 *
 * <p><b>Method:</b> only what follows the last work counts. Each wire the work touched must conduct between the nearest plugs
 * within a limit computed from its length and size and be isolated from the chassis; the place is wiggled; codes are cleared,
 * the engine is run at every operating point at which the watches of the old codes run, for longer than they need; no code
 * may come back, no new one appear; the lamps are out, which closes the list but is not the only check; all that was opened
 * is closed. Limits and times name their source beside them.
 *
 * <p>A code after the work that points at a slip is the business of {@code rank}, which weighs the work done.
 *
 * <p><b>Must not know:</b> probabilities, money, where the sheet is shown. Start at {@link loomcase.proof.ProofMaker}.
 */
package loomcase.proof;
