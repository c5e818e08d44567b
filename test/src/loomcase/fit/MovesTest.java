package loomcase.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** The order of terminal moves: cycles against a textbook permutation, length against an exhaustive search, safety by replay. */
class MovesTest {
    private static Map<String, String> map(String... pairs) {
        Map<String, String> out = new LinkedHashMap<>();
        for (int i = 0; i < pairs.length; i += 2) out.put(pairs[i], pairs[i + 1]);
        return out;
    }

    /**
     * The usual textbook example of cycle notation, 1 2 3 4 5 taken to 2 5 4 3 1, is (1 2 5)(3 4), as in Wikipedia,
     * "Permutation", section on cycle notation (from memory).
     */
    @Test
    void cyclesAreThoseOfTheTextbookPermutation() {
        Moves m = Moves.plan(
                map("1", "2", "2", "5", "3", "4", "4", "3", "5", "1"),
                Set.of("1", "2", "3", "4", "5"),
                List.of("1", "2", "3", "4", "5"));
        assertEquals(List.of(List.of("1", "2", "5"), List.of("3", "4")), m.cycles());
        assertEquals(List.of(), m.chains());
        assertEquals(7, m.moves().size());
        assertEquals(Moves.OUTSIDE, m.moves().get(0).to());
    }

    @Test
    void nothingMovesWhereAllIsInPlace() {
        assertEquals(
                List.of(),
                Moves.plan(map("1", "1"), Set.of("1"), List.of("1", "2")).moves());
    }

    @Test
    void aChainNeedsNoParkingAndACycleParksInAFreeCavity() {
        Moves chain = Moves.plan(map("1", "2", "2", "3"), Set.of("1", "2"), List.of("1", "2", "3"));
        assertEquals(
                List.of(
                        new Moves.Move(Moves.Kind.PLACE, "2", "2", "3"),
                        new Moves.Move(Moves.Kind.PLACE, "1", "1", "2")),
                chain.moves());
        Moves swap = Moves.plan(map("1", "2", "2", "1"), Set.of("1", "2"), List.of("1", "2", "3"));
        assertEquals(
                List.of(
                        new Moves.Move(Moves.Kind.PARK, "2", "2", "3"),
                        new Moves.Move(Moves.Kind.PLACE, "1", "1", "2"),
                        new Moves.Move(Moves.Kind.RETURN, "2", "3", "1")),
                swap.moves());
    }

    @Test
    void wishesThatCannotBothComeTrueAreRefused() {
        assertThrows(
                IllegalArgumentException.class,
                () -> Moves.plan(map("1", "3", "2", "3"), Set.of("1", "2"), List.of("1", "2", "3")));
        assertThrows(
                IllegalArgumentException.class, () -> Moves.plan(map("1", "2"), Set.of("1", "2"), List.of("1", "2")));
        assertThrows(IllegalArgumentException.class, () -> Moves.plan(map("9", "2"), Set.of("9"), List.of("1", "2")));
    }

    /** Replays 2,000 drawn plans: no terminal goes into an occupied cavity, at most one is outside, all end in place. */
    @Test
    void replayedMovesNeverMeet() {
        Random random = new Random(51);
        for (int round = 0; round < 2000; round++) {
            int n = 2 + random.nextInt(12);
            List<String> cavities = new ArrayList<>();
            for (int i = 1; i <= n; i++) cavities.add("c" + i);
            List<String> from = new ArrayList<>(cavities);
            List<String> to = new ArrayList<>(cavities);
            Collections.shuffle(from, random);
            Collections.shuffle(to, random);
            int wired = 1 + random.nextInt(n);
            Map<String, String> wanted = new LinkedHashMap<>();
            for (int i = 0; i < wired; i++) wanted.put(from.get(i), to.get(i));
            Moves plan = Moves.plan(wanted, wanted.keySet(), cavities);
            replay(wanted, plan);
            long misplaced = wanted.entrySet().stream()
                    .filter(e -> !e.getKey().equals(e.getValue()))
                    .count();
            assertEquals(misplaced + plan.cycles().size(), plan.moves().size());
        }
    }

    private static void replay(Map<String, String> wanted, Moves plan) {
        Map<String, String> at = new HashMap<>();
        wanted.keySet().forEach(t -> at.put(t, t));
        for (Moves.Move m : plan.moves()) {
            assertEquals(m.from(), at.get(m.terminal()));
            assertTrue(!at.containsValue(m.to()), m + " goes where another one is");
            at.put(m.terminal(), m.to());
        }
        assertEquals(wanted, at);
    }

    /** With one free cavity the number of moves is the least that any order reaches, found by breadth-first search. */
    @Test
    void noOrderIsShorter() {
        List<String> cavities = List.of("1", "2", "3", "4", "5");
        List<List<Integer>> all = new ArrayList<>();
        permute(new ArrayList<>(List.of(0, 1, 2, 3)), 0, all);
        assertEquals(24, all.size());
        for (List<Integer> p : all) {
            Map<String, String> wanted = new LinkedHashMap<>();
            for (int i = 0; i < 4; i++) wanted.put(cavities.get(i), cavities.get(p.get(i)));
            int ours = Moves.plan(wanted, wanted.keySet(), cavities).moves().size();
            assertEquals(shortest(p), ours, p.toString());
        }
    }

    private static void permute(List<Integer> list, int k, List<List<Integer>> out) {
        if (k == list.size()) out.add(List.copyOf(list));
        for (int i = k; i < list.size(); i++) {
            Collections.swap(list, k, i);
            permute(list, k + 1, out);
            Collections.swap(list, k, i);
        }
    }

    /** Fewest moves of terminals 0 to 3 in five cavities, one of them free, until terminal i is in cavity p(i). */
    private static int shortest(List<Integer> p) {
        record State(List<Integer> at, int moves) {}
        List<Integer> start = List.of(0, 1, 2, 3);
        ArrayDeque<State> open = new ArrayDeque<>(List.of(new State(start, 0)));
        Set<List<Integer>> seen = new HashSet<>(Set.of(start));
        while (true) {
            State s = open.remove();
            if (s.at.equals(p)) return s.moves;
            for (int t = 0; t < 4; t++)
                for (int c = 0; c < 5; c++) {
                    if (s.at.contains(c)) continue;
                    List<Integer> next = new ArrayList<>(s.at);
                    next.set(t, c);
                    if (seen.add(next)) open.add(new State(next, s.moves + 1));
                }
        }
    }
}
