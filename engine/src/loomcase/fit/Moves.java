package loomcase.fit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The order in which terminals change cavities inside one housing, so that never more than one is out of its cavity.
 *
 * <p>The wanted positions are a partial injection of cavities. It falls apart into <i>chains</i>, which end in an empty
 * cavity, and <i>cycles</i> (the cycles of a permutation). A chain is worked from its empty end and needs no parking. Of a
 * cycle one terminal is parked, the others follow one by one, and the parked one goes last: k + 1 moves for a cycle of
 * length k, which is the least possible. Parking is in an empty cavity that no move needs; where there is none, the
 * parked wire waits outside, and that is said.
 *
 * @param moves in order
 * @param cycles each cycle by its cavities, {@code a → b → … → a}
 * @param chains each chain by its cavities, ending in the one that was empty
 */
public record Moves(List<Move> moves, List<List<String>> cycles, List<List<String>> chains) {
    /** Where a terminal waits when no cavity is free. */
    public static final String OUTSIDE = "outside";

    /** What a move is for. */
    public enum Kind {
        /** To its place. */
        PLACE,
        /** Out of the way, to wait. */
        PARK,
        /** From where it waited to its place. */
        RETURN
    }

    /**
     * One terminal goes from one cavity to another.
     *
     * @param terminal the terminal, named by the cavity that it was in at the start
     * @param from where it is taken out; {@link #OUTSIDE} where it waited outside
     * @param to where it goes in; {@link #OUTSIDE} where it must wait outside
     */
    public record Move(Kind kind, String terminal, String from, String to) {}

    public Moves {
        moves = List.copyOf(moves);
        cycles = List.copyOf(cycles);
        chains = List.copyOf(chains);
    }

    /**
     * Plans the moves.
     *
     * @param wanted cavity where each terminal belongs, by the cavity that it is in; terminals that stay may be left out
     * @param occupied cavities that hold a terminal, those of {@code wanted} among them or not
     * @param cavities every cavity of the housing, in order
     * @throws IllegalArgumentException when two terminals are wanted in one cavity, or one in a cavity that stays occupied
     */
    public static Moves plan(Map<String, String> wanted, Set<String> occupied, List<String> cavities) {
        Map<String, String> go = new LinkedHashMap<>();
        for (String c : cavities) if (wanted.containsKey(c) && !wanted.get(c).equals(c)) go.put(c, wanted.get(c));
        if (go.size()
                != wanted.entrySet().stream()
                        .filter(e -> !e.getKey().equals(e.getValue()))
                        .count())
            throw new IllegalArgumentException("a terminal sits in a cavity that the housing does not have: " + wanted);
        Set<String> targets = new LinkedHashSet<>(go.values());
        if (targets.size() != go.size())
            throw new IllegalArgumentException("two terminals are wanted in one cavity: " + go);
        for (String t : targets)
            if (occupied.contains(t) && !go.containsKey(t))
                throw new IllegalArgumentException("cavity " + t + " is wanted but stays occupied");
        Optional<String> free = cavities.stream()
                .filter(c -> !occupied.contains(c) && !go.containsKey(c) && !targets.contains(c))
                .findFirst();
        return new Planner(go, free.orElse(OUTSIDE)).plan();
    }

    private static final class Planner {
        private final Map<String, String> go;
        private final String park;
        private final List<Move> moves = new ArrayList<>();
        private final List<List<String>> cycles = new ArrayList<>();
        private final List<List<String>> chains = new ArrayList<>();

        Planner(Map<String, String> go, String park) {
            this.go = go;
            this.park = park;
        }

        Moves plan() {
            Set<String> done = new LinkedHashSet<>();
            for (String start : go.keySet())
                if (!go.containsValue(start)) {
                    List<String> path = path(start);
                    chains.add(path);
                    back(path, path.size() - 1);
                    done.addAll(path);
                }
            for (String start : go.keySet()) {
                if (done.contains(start)) continue;
                List<String> cycle = path(start);
                done.addAll(cycle);
                cycles.add(cycle);
                String last = cycle.get(cycle.size() - 1);
                moves.add(new Move(Kind.PARK, last, last, park));
                back(cycle, cycle.size() - 1);
                moves.add(new Move(Kind.RETURN, last, park, go.get(last)));
            }
            return new Moves(moves, cycles, chains);
        }

        /** The cavities met from one on, until an empty one or the start comes. */
        private List<String> path(String start) {
            List<String> out = new ArrayList<>(List.of(start));
            String next = go.get(start);
            while (next != null && !next.equals(start)) {
                out.add(next);
                next = go.get(next);
            }
            return out;
        }

        /** Moves each terminal of a path one on, the one before the end first. */
        private void back(List<String> path, int end) {
            for (int i = end - 1; i >= 0; i--)
                moves.add(new Move(Kind.PLACE, path.get(i), path.get(i), path.get(i + 1)));
        }
    }
}
