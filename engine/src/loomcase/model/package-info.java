/**
 * The harness of one engine build as values: what is where, what joins what, and what the control unit watches.
 *
 * <p>In: nothing but the records' own components; {@code model.read} fills them from a file. Out: {@link
 * loomcase.model.Circuit} and what follows from it alone: {@link loomcase.model.Layout} (where wires run; the loom is a
 * tree, so the path is the only one) and {@link loomcase.model.Conductor} (ohms of a metre of wire). {@link
 * loomcase.model.Edit} is the language in which every later stage says what a fault, an open plug or a jumper changes.
 *
 * <p>The model knows no log, no case, no probability and no solver. Units are part of every name. Maps and lists keep the
 * order of the file, so that whatever is made from them comes out the same in every run.
 *
 * <p>Start at {@link loomcase.model.Circuit}, then {@link loomcase.model.Names}.
 */
package loomcase.model;
