package loomcase.drill;

import java.util.Optional;

/**
 * A mark for safety.
 *
 * @param line line of the run
 * @param words what was done and what came of it
 * @param harmful true when it did harm or could have hurt somebody; false for a test that only calls for care
 * @param bill what the harm cost
 * @param made fault that it made in the engine
 */
public record Mark(int line, String words, boolean harmful, Bill bill, Optional<Planted> made) {}
