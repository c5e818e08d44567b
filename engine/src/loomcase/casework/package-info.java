/**
 * Casework: circuit, rules, base rates and journal put together into one answer, for every face.
 *
 * <p><b>In:</b> a circuit file with evidence, or a case file; what a shop lays over rules and base rates. <b>Out:</b>
 * {@link loomcase.casework.Answer}: suspects, next tests, cautions, marks for the drawing, each computed on first use.
 * <b>Method:</b> the stages' own entries called in their order; nothing is decided here. What costs time is kept:
 * {@link loomcase.casework.Bench} holds one circuit's networks and predictions under the digest of its file, and answers
 * under the digest of the case's last line, so a line added to a case is weighed without solving anew.
 *
 * <p>A case file may grow at any time, for others may write to it. {@link loomcase.casework.OpenCase} is the case as it
 * stood when it was opened, whole and unchanging; opening it again shows the news. Recording goes behind the lines of others or
 * is refused because of them, as the caller wishes, decided under the file's own lock.
 *
 * <p><b>Must not know:</b> arguments, requests, text for a screen. Start reading at {@link loomcase.casework.Casework}.
 */
package loomcase.casework;
