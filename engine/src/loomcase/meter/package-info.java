/**
 * Meter: what a test would show, and which tests there are.
 *
 * <p><b>In:</b> a circuit, its solved networks, the table of codes it can show, and a hypothesis reduced to what a test can
 * see ({@link loomcase.meter.Subject}). <b>Out:</b> for any {@link loomcase.meter.Test} the {@link
 * loomcase.meter.Distribution} of what it would show, the likelihood of what was observed, the {@link
 * loomcase.meter.Outcomes} that it can tell apart, and from {@link loomcase.meter.Catalogue} the tests worth doing near
 * given suspects with their minutes, places and harms.
 *
 * <p><b>Method.</b> No table of readings. A {@link loomcase.meter.Setup} is edits of the circuit: contacts of a plug apart
 * are open, a jumper is a path, a voltmeter is its input resistance between its points, an ohmmeter a small voltage behind a
 * resistor. The network with fault and setup is solved and read; codes watched after a change come from the same prediction
 * as codes do. With the key off every source inside control unit and devices is zero; with the battery disconnected nothing
 * is left but resistances. Ohms are for that state, or for points on plugs apart: a network that is live gives "over range"
 * and the test carries {@link loomcase.meter.Harm#OHMS_ON_LIVE_CIRCUIT}. What hand and eye notice (look, wiggle, swap) is
 * not electrical: its probabilities stand in {@code rules/observations.csv}, as do the errors of meter and model and the
 * outlier shares. Minutes and hazards come from {@code measurements.csv} beside this package; its readings are only used
 * to check the predictions.
 *
 * <p><b>Limits.</b> Steady state only: no pulses, no scope. The model has no key switch, so with the key off and the battery
 * connected a feed behind the key stays live. A leak above 10 Mohm reads as over range. Tests of pull, pin drag, lamp load
 * and overlay wire (M14 to M16, M25) are not predicted. A test that is sized wrongly for the fault (30 ohm stands for a
 * range) is widened by {@code fault.size.relative}, not integrated over. Codes watched are taken as independent given the
 * fault.
 *
 * <p><b>Must not know:</b> what was observed before, posteriors, money, screens. It imports model, solve, predict and the
 * vocabulary of j1939.
 *
 * <p><b>Start reading</b> at {@link loomcase.meter.MeterPrediction}, then {@link loomcase.meter.Test} and {@link
 * loomcase.meter.NumericPrediction}.
 */
package loomcase.meter;
