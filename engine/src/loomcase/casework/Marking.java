package loomcase.casework;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.draw.Suspicion;
import loomcase.model.Circuit;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;

/** Lays an answer over the harness: shares of all places, callouts for the first suspects, wires of one of them. */
final class Marking {
    private static final int MARKED = 4;

    /** Share of the suspect's probability from which a wire is traced (judgement). */
    private static final double WORTH_TRACING = 0.03;

    /** Share of the foremost wire's probability that does as well, where none reaches the other (judgement). */
    private static final double AS_FOREMOST = 0.5;

    private Marking() {}

    /**
     * @param traced rank of the suspect whose wires are traced; one that is not there traces nothing
     */
    static Suspicion suspicion(Circuit circuit, Ranking r, int traced) {
        Map<PlaceId, Double> shares = r.shares();
        shares.replaceAll((place, share) -> Math.min(1, share));
        List<Suspicion.Mark> marks = new ArrayList<>();
        Set<PlaceId> marked = new HashSet<>();
        for (Ranking.Suspect s : r.suspects()) {
            if (marks.size() == MARKED) break;
            if (s.place().kind() == PlaceId.Kind.ENGINE || !marked.add(s.place())) continue;
            marks.add(new Suspicion.Mark(s.rank(), s.place(), wordsAt(s)));
        }
        return new Suspicion(shares, marks, trace(circuit, r, traced));
    }

    /** The suspect's most probable fault at the place marked. */
    private static String wordsAt(Ranking.Suspect s) {
        return s.members().stream()
                .filter(m -> m.place().equals(s.place()))
                .findFirst()
                .map(Ranking.Member::words)
                .orElse(s.words());
    }

    /**
     * Wires that a suspect concerns, those of hardly probable faults left out; of a suspect with many faults that are all hardly
     * probable, those that count as much as the foremost.
     */
    private static List<String> trace(Circuit circuit, Ranking r, int traced) {
        if (traced > r.suspects().size()) return List.of();
        Ranking.Suspect suspect = r.suspects().get(traced - 1);
        Map<String, Double> by = new Concerned(circuit).by(suspect);
        double foremost =
                by.values().stream().mapToDouble(Double::doubleValue).max().orElse(0);
        double least = Math.min(WORTH_TRACING * suspect.probability(), AS_FOREMOST * foremost);
        return by.entrySet().stream()
                .filter(e -> e.getValue() >= least)
                .map(Map.Entry::getKey)
                .toList();
    }
}
