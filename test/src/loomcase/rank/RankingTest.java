package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import loomcase.demo.Harness;
import loomcase.faults.Priors;
import loomcase.j1939.Code;
import loomcase.model.PlaceId;
import loomcase.predict.Predictor;
import org.junit.jupiter.api.Test;

/** What an answer must say about counts, stored codes, missing codes, unknown codes and its own sum. */
class RankingTest {
    private static final Harness H = Harness.TEACHING;

    private static Ranking rank(String active, String stored) {
        return rank(Complaints.typed(active, stored, Complaints.BOTH));
    }

    private static Ranking rank(Evidence e) {
        return H.ranker().rank(e, share -> {});
    }

    private static double share(Ranking r, String family) {
        return r.suspects().stream()
                .filter(s -> !s.twoFaults())
                .flatMap(s -> s.members().stream())
                .filter(m -> m.id().startsWith(family))
                .mapToDouble(Ranking.Member::probability)
                .sum();
    }

    @Test
    void highCountsFavourAContactThatComesAndGoes() {
        double none = share(rank("110/3", ""), "contact.fretted");
        double once = share(rank("110/3x1", ""), "contact.fretted");
        double often = share(rank("110/3x40", ""), "contact.fretted");
        assertTrue(once < none && none < often, once + ", " + none + ", " + often);
        assertTrue(often > 4 * none, "no count " + none + ", forty occurrences " + often);
    }

    @Test
    void storedOnlyFavoursAContactThatComesAndGoes() {
        double active = amongFaults(rank("110/3", ""));
        double stored = amongFaults(rank("", "110/3"));
        assertTrue(stored > 3 * active, active + " when active, " + stored + " when stored");
    }

    /** Share of worn contacts among all faults; a single stored code may also be left from before, with nothing wrong now. */
    private static double amongFaults(Ranking r) {
        double faults = 1 - r.unexplained() - r.unlisted() - share(r, "nothing");
        return share(r, "contact.fretted") / faults;
    }

    @Test
    void aCodeThatCouldHaveSetAndDidNotCountsAgainst() {
        Ranking both = rank("100/4,102/4", "");
        Ranking one = rank("100/4", "");
        PlaceId splice = new PlaceId(PlaceId.Kind.SPLICE, "S1");
        assertTrue(at(both, splice) > 5 * at(one, splice), at(both, splice) + " against " + at(one, splice));
        Ranking.Piece piece = rank("100/4", "").suspects().stream()
                .filter(s -> s.predictsButAbsent().contains(new Code(102, 4)))
                .flatMap(s -> s.evidence().stream())
                .filter(x -> x.code().equals(new Code(102, 4)))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no suspect predicts 102/4"));
        assertEquals("absent", piece.found());
        // P(absent) = 1 − 0.95 · 0.95 there, nearly 1 on a healthy engine
        assertEquals(1 - 0.95 * 0.95, piece.likelihoodRatio(), 1e-3);
    }

    private static double at(Ranking r, PlaceId place) {
        return r.shares().getOrDefault(place, 0.0);
    }

    @Test
    void aCodeThatNothingLookedForSaysNothing() {
        // 110/0 is looked for at idle only: at key-on its absence must not count
        Ranking r = H.ranker().rank(Complaints.typed("110/4", "", List.of("key-on")), share -> {});
        r.suspects().forEach(s -> s.evidence().forEach(x -> assertFalse(x.code().equals(new Code(110, 0)), s.words())));
    }

    @Test
    void anUnknownSpnIsLeftUnexplainedAndChangesNothingElse() {
        Ranking without = rank("110/3", "");
        Ranking with = rank("110/3,9999/31", "");
        assertEquals(without.unexplained(), with.unexplained(), 1e-9);
        assertEquals(without.suspects().size(), with.suspects().size());
        for (int i = 0; i < without.suspects().size(); i++) {
            assertEquals(
                    without.suspects().get(i).words(), with.suspects().get(i).words());
            assertEquals(
                    without.suspects().get(i).probability(),
                    with.suspects().get(i).probability(),
                    1e-9);
            assertTrue(with.suspects().get(i).leaves().contains(new Code(9999, 31)));
        }
        Ranking.CodeStatus unknown = with.codes().get(1);
        assertFalse(unknown.known());
        assertEquals(0, unknown.explained(), 1e-9);
        assertTrue(with.codes().get(0).known() && with.codes().get(0).explained() > 0.9);
    }

    @Test
    void codesThatFitNothingTogetherAreMostlyUnexplained() {
        Ranking r = rank("100/3,102/4,110/0,168/4,647/6,3509/3", "");
        assertTrue(r.unexplained() > 0.9, r.unexplained() + " and " + r.suspects());
        assertTrue(rank("100/4,102/4", "").unexplained() < 0.01);
    }

    @Test
    void allProbabilityIsAccountedFor() {
        for (Ranking r : List.of(
                rank("110/3", ""),
                rank("100/4,102/4", "647/5"),
                rank("100/3,102/4,110/0,168/4,647/6,3509/3", ""),
                rank("", "110/3x12"))) {
            double sum = r.unlisted() + r.unexplained();
            for (Ranking.Suspect s : r.suspects()) {
                sum += s.probability();
                double members = s.members().stream()
                        .mapToDouble(Ranking.Member::probability)
                        .sum();
                assertEquals(s.probability() * (s.twoFaults() ? 2 : 1), members, 0.02 * s.probability(), s.words());
            }
            assertEquals(1, sum, 1e-9);
            r.codes().forEach(c -> assertTrue(c.explained() >= 0 && c.explained() <= 1, c.toString()));
        }
    }

    @Test
    void hypothesesWithOnePredictionAreInOneSuspect() {
        Predictor p = H.predictor(List.of(), Priors.builtIn().get("observe.missed-code"), Complaints.BOTH);
        Ranking r = rank("100/4,102/4", "");
        Set<List<Integer>> leaders = new HashSet<>();
        for (Ranking.Suspect s : r.suspects()) {
            if (s.twoFaults()) continue;
            var q = p.predict(s.members().get(0).edits());
            List<Integer> rounded = new ArrayList<>();
            for (int c = 0; c < p.healthy().length; c++) rounded.add((int) Math.round(1e6 * q.of(c, p.healthy()[c])));
            assertTrue(leaders.add(rounded), s.words() + " predicts what an earlier suspect does");
        }
        // the splice, its trunk leg, the wire before it and the contact of the pin all cut the 5 V of both sensors
        Set<String> ids = new HashSet<>();
        r.suspects().get(0).members().forEach(m -> ids.add(m.id()));
        assertTrue(
                ids.containsAll(Set.of("splice.open S1", "splice.leg-open S1 W4", "wire.open W4", "contact.open J1/3")),
                ids.toString());
    }

    @Test
    void neitherRepeatingNorTheOrderOfCodesChangesTheAnswer() {
        Evidence e = Complaints.typed("100/4x2,102/4,110/3x7", "168/4,647/5x3", Complaints.BOTH);
        Ranking first = rank(e);
        Random random = new Random(7);
        for (int i = 0; i < 3; i++) {
            List<Evidence.Seen> codes = new ArrayList<>(e.codes());
            Collections.shuffle(codes, random);
            Ranking again = rank(new Evidence(codes, e.operatingPoints()));
            assertEquals(first.suspects(), again.suspects());
            assertEquals(first.rollup(), again.rollup());
            assertEquals(first.losers(), again.losers());
            assertEquals(first.unexplained(), again.unexplained());
        }
    }

    @Test
    void anObviousSensorLosesWithItsReason() {
        Ranking r = rank("100/4,102/4", "");
        Set<String> losers = new HashSet<>();
        for (Ranking.Loser l : r.losers()) {
            losers.add(l.place().id());
            assertFalse(l.leaves().isEmpty() && l.predictsButAbsent().isEmpty(), l.toString());
        }
        assertEquals(Set.of("OPS", "MAP"), losers);
    }

    @Test
    void evidenceNeedsAnOperatingPointAndEachCodeOnce() {
        Evidence.Seen seen =
                Complaints.typed("110/3", "", Complaints.BOTH).codes().get(0);
        org.junit.jupiter.api.Assertions.assertThrows(
                IllegalArgumentException.class, () -> new Evidence(List.of(seen, seen), Complaints.BOTH));
        org.junit.jupiter.api.Assertions.assertThrows(
                IllegalArgumentException.class, () -> new Evidence(List.of(seen), List.of()));
    }

    /** Networks made by another thread, before a ranking needs them or while it does, are those that it makes itself. */
    @Test
    void aRankingIsTheSameWhenItsNetworksAreMadeBesideIt() {
        for (String codes : List.of("110/3,100/4", "110/4", "100/3,110/3")) {
            Evidence e = Complaints.typed(codes, "", Complaints.BOTH);
            Ranking alone = rank(e);
            for (int i = 0; i < 8; i++) {
                Ranker ranker = new Ranker(H.circuit(), Priors.builtIn(), H.policy());
                CompletableFuture<Void> made = CompletableFuture.runAsync(() -> ranker.prepare(e.operatingPoints()));
                if (i % 2 == 0) made.join();
                assertEquals(alone.suspects(), ranker.rank(e, share -> {}).suspects(), codes);
                made.join();
            }
        }
    }
}
