/**
 * Files into the model: the circuit file (JSON) and the wire list (CSV).
 *
 * <p>In: a path. Out: a {@link loomcase.model.Circuit} or {@link loomcase.model.read.WireList}, or an {@link
 * loomcase.InputProblem} that says in one sentence where and what is wrong and what is allowed. Reading goes in three
 * steps: {@link loomcase.model.read.Json} (strict text, each value with its line), {@link loomcase.model.read.Cursor} and
 * the readers (fields, types, ranges, spelling), {@link loomcase.model.read.References} (names lead somewhere, the loom is
 * a tree). The first two say the same as {@code circuits/circuit.schema.json}; a test holds them together, so a change of
 * one is a change of both. Whether the circuit makes electrical sense is for {@code loomcase.check}.
 *
 * <p>Start at {@link loomcase.model.read.CircuitReader}.
 */
package loomcase.model.read;
