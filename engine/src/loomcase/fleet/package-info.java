/**
 * Many cases, one after the other, on all cores.
 *
 * <p><b>In:</b> a list of cases, one JSON object a line, or case files. <b>Out:</b> one JSON object a line in the same order:
 * the answer, or what is wrong with that case. Start reading at {@link loomcase.fleet.Fleet}; {@link
 * loomcase.fleet.FleetLine} is the form of a line.
 *
 * <p><b>Method.</b> A case needs nothing of another, so a fleet is a map of the same function over lines. Each worker has
 * circuits, networks and predictions of its own. At most a few lines for each worker are under way at once, so memory does
 * not grow with the list, and answers leave in the order in which the cases came.
 *
 * <p><b>Limits.</b> One machine; a list may be cut and run on several, for an answer depends on its line alone. A line that
 * cannot be answered gives an object with the reason and stops nothing.
 *
 * <p><b>Must not know:</b> arguments, terminals, where answers go.
 */
package loomcase.fleet;
