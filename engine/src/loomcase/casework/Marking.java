package loomcase.casework;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.draw.Suspicion;
import loomcase.model.Circuit;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;
import loomcase.rank.Ranking;

/** Lays an answer over the harness: shares of all places, callouts for the first suspects, wires of one of them. */
final class Marking {
    private static final int MARKED = 4;
    private static final int TRACED = 12;

    /** Share of the suspect's probability from which a place's wires are traced. */
    private static final double WORTH_TRACING = 0.03;

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

    /** Wires that a suspect's places lie on. */
    private static List<String> trace(Circuit circuit, Ranking r, int traced) {
        if (traced > r.suspects().size()) return List.of();
        Set<String> out = new LinkedHashSet<>();
        Ranking.Suspect suspect = r.suspects().get(traced - 1);
        for (Ranking.PlaceShare p : suspect.places()) {
            if (p.probability() < WORTH_TRACING * suspect.probability()) continue;
            String id = p.place().id();
            for (Wire w : circuit.wires().values()) {
                boolean on = w.id().equals(id)
                        || w.from().equals(id)
                        || w.to().equals(id)
                        || p.place().kind() == PlaceId.Kind.CONNECTOR
                                && (Names.connectorOf(w.from()).equals(id)
                                        || Names.connectorOf(w.to()).equals(id));
                if (on && out.size() < TRACED) out.add(w.id());
            }
        }
        return List.copyOf(out);
    }
}
