/**
 * The job sheet: what comes off in which order, how ends are routed, and what closing up calls for.
 *
 * <p><b>In:</b> a circuit, the work (a repair at places, a section, the whole harness) and the access steps already open.
 * <b>Out:</b> a {@link loomcase.job.JobSheet}: tasks to tick, with minutes, tools and the caution beside the task where it
 * matters.
 *
 * <p><b>Method:</b> the access steps of all places together, each once, every step after those it needs; their minutes
 * include putting back, so they are those of the planner. Closing is the exact reverse of opening, with what each step calls
 * for afterwards as tasks of its own. The loom is laid from the control unit outwards, trunk first, at a junction the
 * longest part first; plugs follow in that order and the control unit's come last.
 *
 * <p><b>Must not know:</b> probabilities, money, where the sheet is shown. Start at {@link loomcase.job.JobPlanner}.
 */
package loomcase.job;
