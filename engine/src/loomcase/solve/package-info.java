/**
 * From a circuit and electrical edits to volts and amperes at every point, at one instant.
 *
 * <p><b>In:</b> a {@code Circuit}, an operating point and phase, and a list of {@code Edit}s. <b>Out:</b> a {@link
 * loomcase.solve.Solution}. Start reading at {@link loomcase.solve.NetworkSolver}.
 *
 * <p><b>The network.</b> Nodes are the points of the harness: wire ends, cavities, splices, device terminals, control-unit
 * pins; node 0 is the chassis. A linear element is a resistance with a voltage in series; what is not linear is a part with
 * a few linear regions (a clamp, a supply with a current limit, a driver, an amplified sensor, a relay contact). With every
 * part in some region Kirchhoff's current law is a linear system {@code G·v = j}. Since every source has a resistance, no
 * source current is an unknown of its own: this is modified nodal analysis (C.-W. Ho, A. E. Ruehli, P. A. Brennan, IEEE
 * Trans. CAS 22, 1975) with its source rows eliminated beforehand.
 *
 * <p><b>Many hypotheses.</b> The healthy G is factorised once (minimum degree, no pivoting: a harness is nearly a tree).
 * An edit changes one conductance, which is a change of rank one, so a hypothesis costs a few back-substitutions and a
 * system as small as the number of its edits and moved parts (Sherman–Morrison–Woodbury). Solutions are refined on the
 * residual where cutting off a part of the network costs digits.
 *
 * <p><b>Phases.</b> A phase differs from another of its operating point by a few parts, which is a change of low rank too.
 * Laid over a fault solved in the other phase ({@link loomcase.solve.PhaseOverlay}) it costs a few numbers instead of a
 * solve; so may two faults be laid over each other ({@link loomcase.solve.Overlay}). Both find out when they must not.
 *
 * <p><b>Regions.</b> Parts start in their healthy regions and move, one border at a time, towards the regions their
 * voltages call for. A combination that never agrees is a relay that chatters; it comes back marked, not thrown. An
 * overloaded fuse opens for good and the rest is solved again.
 *
 * <p><b>Limits.</b> Direct current only: pulses, driver tests and messages are differences between phases. A node that
 * floats hangs on its insulation (1 gigaohm). A relay has one threshold for pulling in and dropping out. A driver
 * that is on stays on when the control unit has lost its supply.
 *
 * <p><b>Must not know:</b> SPN, hypotheses, probability.
 */
package loomcase.solve;
