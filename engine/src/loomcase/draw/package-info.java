/**
 * Pictures of a harness with suspicion on it: for a screen or paper, and for a terminal.
 *
 * <p><b>In:</b> a circuit, its layout, and a {@link loomcase.draw.Suspicion}: a share for each place, the places to call
 * out, the wires to trace. <b>Out:</b> one SVG document ({@link loomcase.draw.HarnessSvg}) or lines of text
 * ({@link loomcase.draw.HarnessTree}); the same input gives the same bytes on every machine.
 *
 * <p><b>Method.</b> A loom is a tree, so it can be drawn without crossings.
 *
 * <pre>
 * LoomBuilder: branches walked outward from the control unit -> Loom (junctions, rows, stops on branches)
 * Spacing:     x of every junction; labels on a branch stand in one line or alternate between two
 * Placer:      y of every junction; subtrees are packed by their outlines (Skyline), the thickest branch goes straight on
 * Trace:       the path of chosen wires over the result
 * Pen, Shapes: ink, which also repeats in hue what width, darkness and numbers say
 * </pre>
 *
 * The packing is that of tidy tree drawing (Reingold and Tilford, "Tidier drawings of trees", IEEE Transactions on Software
 * Engineering 7(2), 1981; from memory): subtrees are kept apart outline against outline. Contrast limits are those of WCAG
 * 2.1 (1.4.3 and 1.4.11). Widths of letters are a table ({@link loomcase.draw.Lettering}), because a font of the machine
 * would change the picture from one to the next.
 *
 * <p><b>Known limits.</b> Lengths are not to scale, only order along a branch is true. A tree so deep that it does not fit
 * 1600 px even with all words dropped comes out wider, at full text size. Words that do not fit end in an ellipsis and stand
 * in full in the group's {@code title}. Wires and cavities are drawn only when suspected. Text in a font wider than DejaVu
 * Sans may touch its neighbour. Branches that close a loop are drawn as a row that names where they lead.
 *
 * <p><b>Must not know:</b> codes, hypotheses, rankings, money, screens.
 *
 * <p>Start at {@link loomcase.draw.HarnessSvg}, then {@link loomcase.draw.Placer}.
 */
package loomcase.draw;
