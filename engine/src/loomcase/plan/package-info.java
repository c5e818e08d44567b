/**
 * From suspects to the reading that separates them best for the access work it takes.
 *
 * <p><b>In:</b> a ranking, the circuit's access steps, its networks. <b>Out:</b> a {@link loomcase.plan.NextTest}, the entry of
 * this stage. <b>Method:</b> expected drop of entropy per minute, one voltage reading ahead. <b>Must not know:</b> screens.
 */
package loomcase.plan;
