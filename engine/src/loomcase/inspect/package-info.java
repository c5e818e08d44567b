/**
 * What is to be known at one place of the harness, and along the circuit of one code, for somebody who points at it.
 *
 * <p><b>In:</b> a case with its answer. <b>Out:</b> {@link loomcase.inspect.Face}, the face of a place: cavities with their wires,
 * predicted and measured volts, suspects, codes and tests there; {@link loomcase.inspect.CodeCircuit}, the electrical chain of a
 * code from pin to ground. <b>Method:</b> volts against the chassis come from the meter stage, with nothing wrong and with the
 * most probable fault of one suspect present, so they are what a meter would show, its own load included. Chains follow the
 * wires from pin to device and back, through splices and plugs between two halves of the loom. <b>Must not know:</b> screens.
 *
 * <p>Start reading at {@link loomcase.inspect.Face}.
 */
package loomcase.inspect;
