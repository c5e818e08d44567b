/**
 * The case: what was seen and done at one engine, kept line by line so that nobody has to take it on trust.
 *
 * <p><b>In:</b> a case file, or facts to add to one. <b>Out:</b> a {@link loomcase.journal.Journal}: the entries as written
 * and, in {@link loomcase.journal.Journal#standing()}, what holds after corrections. Later stages make evidence of the
 * latter. {@link loomcase.journal.EntryCheck} says beforehand whether a fact fits the circuit: accepted, odd and to be
 * confirmed, or refused with the reason.
 *
 * <p><b>The file</b> is JSON Lines, UTF-8, LF after each line, described by {@code circuits/case.schema.json}. Lines are only
 * ever added. A wrong line is corrected by a new one that names it and says what should have stood there; a note where
 * nothing should. {@link loomcase.journal.Fact} lists the kinds. Readings keep the digits that the meter showed.
 *
 * <p><b>The chain.</b> Each line carries the SHA-256 (FIPS 180-4) of its own bytes and of the line before; {@code
 * EntryLine} says of exactly which. {@code Chain} names the line that was edited, inserted, removed or moved. <b>Limits:</b>
 * there is no secret in it. Whoever can write the file can write all of it anew with digests that fit, edit the last line
 * with its digest, or cut lines off the end. Against that, keep the last digest elsewhere, on the order or in the claim;
 * {@code loomcase check CASE --last DIGEST} then finds its line or says that it is gone.
 *
 * <p><b>Crash and company.</b> A line is written with one call and the disk is waited for, so a kill at any byte loses at
 * most that line. The next reader says that a torn line is left out; the next writer moves its bytes to {@code CASE.torn}
 * first. A writer locks the file and a second one waits a few seconds. <b>Limits:</b> the lock is the operating system's: it
 * does not reach over network drives that have none, and on POSIX systems a program that reads a case while another of its
 * own threads adds to it loses the lock towards other programs, so a server must not let these overlap for one case. A
 * machine whose disk lies about having written can lose more than a line.
 *
 * <p><b>Must not know:</b> any probability, prediction or price; the checks use the circuit model alone, so whether ohms are
 * read on a wire that is live with the key off is for the stage that plans tests to warn of. Time stamps are those of the
 * computer's clock and are not checked to rise.
 *
 * <p>Start at {@link loomcase.journal.JournalFile}, then {@link loomcase.journal.Fact}.
 */
package loomcase.journal;
