/**
 * Proof that the engine is fixed: what must be measured and seen before a case may be closed, and whether it was.
 *
 * <p><b>In:</b> a circuit, a case journal, and where a code or finding stands against the work the suspects that {@code rank}
 * makes of what was seen after it. <b>Out:</b> a {@link loomcase.proof.Proof}: every check with its limit, the lines of the
 * case that answer it, and one word: proven, not proven (something is missing), disproven (something contradicts); as a
 * sheet, {@link loomcase.proof.ProofDocument}.
 *
 * <p><b>Method.</b> Only what follows the last work counts. Each wire the work touched must conduct between two points that a
 * meter reaches, within a limit computed from length, size and temperature, and its net must be isolated from the chassis;
 * the place and every plug that was apart are looked at, the place is wiggled; what was opened is closed; codes are cleared;
 * the engine is run where the watches of the old codes and of the circuits touched look, for longer than they need, in more
 * than one key cycle; no code may come back, no new one appear; the lamps are out, which ends the list but is not the only
 * check. Each limit and time names its source beside it: {@code MeterChecks}, {@code RunChecks}.
 *
 * <p><b>Limits.</b> What is not recorded did not happen. Times are those of the lines' stamps: whoever records late shows
 * more time than there was. A closed access step stands for all that it calls for (bleeding, torque, leaks). A contact inside
 * a plug that was apart is judged by codes and wiggle, not by ohms. Volts and drops recorded after the work are weighed by
 * {@code rank}, not here.
 *
 * <p><b>Must not know:</b> money, where the sheet is shown. Start at {@link loomcase.proof.ProofMaker}.
 */
package loomcase.proof;
