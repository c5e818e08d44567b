/**
 * Proofs that a circuit can be trusted before a case rests on it.
 *
 * <p>In: a circuit that was read without complaint, and what the rules conclude for it. Out: sentences, each with place,
 * fault and remedy; none means proved. {@code WiringProof} goes by names: every pin and terminal carries a wire, every
 * wire ends on something, every splice joins two or more, every code that names a device measures a pin joined to it.
 * {@code BehaviourProof} solves the network: at every operating point and phase a healthy engine settles, blows no fuse,
 * keeps the unit awake and sets no code; and every code is set by some single fault or engine condition.
 *
 * <p>Limits: a proved circuit is consistent with itself; that it is the harness on the engine, no program can prove. A code
 * counts as reached when one fault sets it with probability above 0.3, so a code that only two faults together set is
 * refused.
 *
 * <p>This package knows no case and prints nothing. Start at {@link loomcase.check.CircuitCheck}.
 */
package loomcase.check;
