/**
 * Sheets and packets on paper, as a page and on a terminal: one small document model and three ways to write it.
 *
 * <p><b>In:</b> a {@link loomcase.print.Document}: title, facts of the case, {@link loomcase.print.Section sections} made of
 * {@link loomcase.print.Block blocks} (paragraph, points, details, table, steps to tick, caution, figure, evidence, photo,
 * page break). Its text is plain and already in the reader's language; whoever makes a document takes fixed words from
 * {@link loomcase.print.Wording}. A {@link loomcase.print.Phrase} may cite lines of evidence, and the document checks that
 * each cited line is there.
 *
 * <p><b>Out:</b> {@link loomcase.print.Html} (one file, nothing fetched, nothing run), {@link loomcase.print.Pdf} (the same
 * page set on A4 or Letter, tagged, with its fonts inside) or {@link loomcase.print.Text}. The same document gives the same
 * bytes: no clock, no random id.
 *
 * <p><b>Must not know:</b> circuits, cases, codes, money, where documents are shown or stored.
 *
 * <p>Start at {@link loomcase.print.Document}, then {@link loomcase.print.Html}.
 */
package loomcase.print;
