/**
 * Whether a replacement harness fits in place of the old one, and how its terminals are moved where a plug differs.
 *
 * <p><b>In:</b> the old circuit; the new one as a whole circuit, as a cavity list or as a wire list. <b>Out:</b> {@link
 * loomcase.fit.FitResult}: every difference with consequence, severity, action and source; what could not be compared; which
 * plug is which; one {@link loomcase.fit.Transfer} sheet a plug. {@link loomcase.fit.FitReport} adds what each single slip
 * would lead to, {@link loomcase.fit.FitDocument} and {@link loomcase.fit.FitPicture} put it on paper.
 *
 * <p><b>Method.</b> Devices are told by kind, label and the parameters watched on them; plugs by what they plug into and what
 * their wires serve; terminals by what their nets end at, never by where they sit; branches by the plugs on either side. Ids
 * only break ties. A whole new circuit describes its own build, so its control-unit pins and device terminals say what each
 * new cavity carries, and the old ones where that belongs.
 *
 * <p>A plug that does not mate is no obstacle when its terminals may go into the old shell: same series, same seals, not
 * moulded. Inside one shell the wanted positions are a partial permutation: chains are worked from their empty end, of a
 * cycle one terminal is parked ({@link loomcase.fit.Moves}).
 *
 * <p>A slip is a set of edits of the old circuit's network, solved by low-rank updates with the key on and at one running
 * point. Codes are those of {@code loomcase.predict}; damage is a voltage or current beyond a limit ({@link
 * loomcase.fit.DamageRules}). A continuity check reads the wire from the cavity to its far end; it catches a slip when the
 * network, with the plugs apart, reads beyond the limit that copper and stranding allow ({@link loomcase.fit.Checks}).
 *
 * <p><b>Known limits.</b> Boosted injector voltage is not in the network; it is told from the circuit alone. Limits of pins
 * and sensors are judgement, since no circuit file states them. Wires between two splices are compared by what they join, not
 * by size. Routes are compared by length, not by where a branch leaves the trunk. A chattering network has no steady state
 * and is marked. Sheets are in English only.
 *
 * <p><b>Must not know:</b> cases, money, screens. Start at {@link loomcase.fit.Fit}, then {@link loomcase.fit.PlugPair}.
 */
package loomcase.fit;
