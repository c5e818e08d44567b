/**
 * From suspects to the reading that separates them best for the access work it takes.
 *
 * <p><b>In:</b> a ranking, the circuit's access steps, its networks. <b>Out:</b> a {@link loomcase.plan.NextTest}, the entry of
 * this stage. <b>Method:</b> expected minutes to a settled case, every test of the catalogue near the suspects predicted under
 * every hypothesis left, of two faults at once under each that the first may be with each that the second may be; see {@code
 * Lookahead}. <b>Limits:</b> of two faults only combinations with a share of half a percent or more; a place settled on wrongly
 * costs the same minutes whatever it is. <b>Must not know:</b> screens.
 */
package loomcase.plan;
