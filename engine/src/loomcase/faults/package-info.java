/**
 * From a circuit and the priors file to hypotheses: what may be wrong, what it does to the circuit, how likely it is.
 *
 * <p><b>In:</b> circuit, layout, {@code rules/priors.csv}. <b>Out:</b> a list of {@link loomcase.faults.Hypothesis}, each
 * with its places, words, edits and prior probability. Start reading at {@link loomcase.faults.FaultGenerator}.
 *
 * <p><b>Families.</b> Local faults of wires, contacts, crimps, splices, fuses and ground studs; two wires rubbed through to
 * each other; devices and control-unit pins failed by themselves; common causes that hit some of their neighbours (rub
 * point, hot spot, crushed clip, plug not home); whole-connector faults; terminals swapped; true engine conditions; nothing
 * wrong now. None is listed by hand.
 *
 * <p><b>Prior.</b> {@code 1 − exp(−rate · exposure · hours)}, exposure being a count or a length times the zone factors of
 * the branches passed. Every figure, with source and confidence, stands in the priors file, none in code.
 *
 * <p><b>After work.</b> {@link loomcase.faults.AfterWork} multiplies the odds of what a repair was made for by the probability
 * that it leaves it, and raises slips at plugs that were apart.
 *
 * <p><b>False reports.</b> A sensor that is there to report conditions of the engine may report each of them falsely: the same
 * network as the true condition, so that no code tells them apart, only the odds and a gauge.
 *
 * <p><b>Supply.</b> A battery is discharged, worn out or has a dead cell: no code tells these apart from a bad ground or feed
 * but a voltmeter at its posts does, at rest and under load. While the engine runs the charging system feeds the harness; that
 * it does not is a condition of the engine, where the circuit file has one.
 *
 * <p><b>Limits.</b> Resistive faults come in two sizes, of a feed in three, so a fault between or beyond them is met by the
 * nearest. Faults between two wires are one hypothesis for each pair of nets, placed in the branch where most of the exposure
 * lies.
 *
 * <p><b>Must not know:</b> codes, tests, the case file.
 */
package loomcase.faults;
