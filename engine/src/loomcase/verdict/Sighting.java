package loomcase.verdict;

import java.util.OptionalDouble;
import loomcase.model.PlaceId;

/**
 * Something seen at a place, in the journal's words.
 *
 * @param place where
 * @param metresAlong how far along the branch, when the place is a branch and the very spot is known
 * @param finding what, such as {@code green-copper}
 */
public record Sighting(PlaceId place, OptionalDouble metresAlong, String finding) {}
