/**
 * Will it be paid: a claim made from a case, or what is missing while the engine is still in the bay.
 *
 * <p><b>In:</b> an open case (journal with its chain verified, circuit), the claim rules in force, and, where there is one,
 * the verdict of the moment before the repair as {@link loomcase.claim.Packet.Reasoning}. <b>Out:</b> a {@link
 * loomcase.claim.Packet} in one language; from it a document to print; from a folder of cases an {@link
 * loomcase.claim.Audit}.
 *
 * <p><b>Never invented.</b> A sentence of complaint, cause or correction is one line of the journal in words and names that
 * line. What the journal does not say is said to be missing. <i>Before</i> is before the first piece of work on the engine,
 * <i>after</i> is after the last; what lies between proves nothing and is only listed. Cleared codes are no repair.
 *
 * <p><b>Limits</b> of readings are what the healthy network predicts with the same setup, mean and twice the standard
 * deviation. <b>Labour:</b> tests by the list of tests, one made again with nothing changed in between once ({@code Repeats}), access
 * steps once each, work by the minutes clocked or, for sections and harness, by the circuit file's minutes, which hold their
 * access. <b>Money</b> is decimal, each line rounded half up.
 *
 * <p><b>Completeness</b> is the claim rules' alone ({@code rules/claim-*.drl}); {@code Contradictions} adds what needs clock
 * times, access and files, and what the proof sheet ({@link loomcase.proof}) finds after the work and against it. How many of
 * its checks are still open is said, and stops nothing. <b>Who pays</b> is nobody's business here.
 *
 * <p><b>Language.</b> Sentences of built-in rules and of the verdict go through {@link loomcase.translate.Translator}; names
 * of rules, words of the circuit file, of a shop's own rules and of people stay as they were written, and the packet says so.
 *
 * <p><b>Known limits.</b> The clock runs from the first to the last line
 * written at the engine, which is no time sheet. A broken chain is refused when the case is read; there is no packet then.
 *
 * <p><b>Must not know:</b> faces, how faults are ranked or options weighed. Start at {@link loomcase.claim.PacketMaker}.
 */
package loomcase.claim;
