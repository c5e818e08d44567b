/**
 * From solved networks to the probability of every code.
 *
 * <p><b>In:</b> circuit, its networks, what the rules conclude, the operating points looked at, and edits. <b>Out:</b> a
 * {@link loomcase.predict.Prediction}: codes whose probability differs from a healthy engine's. Start reading at {@link
 * loomcase.predict.Predictor}, then {@link loomcase.predict.CodeTable}.
 *
 * <p><b>Method.</b> A watch measures a pin; its limit is soft, {@code p = Φ(±(value − limit)/spread)}, the spread being that
 * of limit and measurement together. The rules say with which FMI a crossed limit is shown and which code hides which. Over
 * several operating points the most favourable counts, since a code once set stays.
 *
 * <p><b>Limits.</b> Watches are taken as independent given the fault. Debounce time is not simulated: operating points last
 * long enough. The spread of healthy device values is in the watch's spread, not propagated through the network.
 *
 * <p><b>Must not know:</b> what was observed.
 */
package loomcase.predict;
