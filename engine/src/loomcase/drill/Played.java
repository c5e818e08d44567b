package loomcase.drill;

import java.util.List;
import loomcase.model.PlaceId;

/**
 * A drill played by the planner.
 *
 * @param moves what was done, in order
 * @param bill minutes and parts together
 * @param findingMinutes minutes without the work that mended a fault: tests, access and work at wrong places
 * @param tests how many tests were taken
 * @param named the place settled on first; those after it were worked at in turn
 * @param rightFirst whether work at the first place took a fault away
 * @param found whether everything was mended in the end
 */
public record Played(
        List<Move> moves,
        Bill bill,
        double findingMinutes,
        int tests,
        List<PlaceId> named,
        boolean rightFirst,
        boolean found) {

    /**
     * One thing done.
     *
     * @param words what was done
     * @param result what it gave
     * @param bill what it took, access included
     * @param probability probability of the true place after it, of the less probable one when there are two; 0 to 1
     */
    public record Move(String words, String result, Bill bill, double probability) {}

    public Played {
        moves = List.copyOf(moves);
        named = List.copyOf(named);
    }
}
