package loomcase.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;

/** A ranking once some devices are new and the complaint is still there: they are out, the others take their share. */
final class NewParts {
    private NewParts() {}

    static Ranking without(Ranking r, Set<PlaceId> fresh) {
        if (fresh.isEmpty()) return r;
        double gone = 0;
        List<Ranking.Suspect> left = new ArrayList<>();
        for (Ranking.Suspect s : r.suspects()) {
            List<Ranking.Member> members = s.members().stream()
                    .filter(m -> m.subject().places().stream().noneMatch(fresh::contains))
                    .toList();
            double kept =
                    members.stream().mapToDouble(Ranking.Member::probability).sum();
            double all = s.members().stream()
                    .mapToDouble(Ranking.Member::probability)
                    .sum();
            boolean whole = members.size() == s.members().size();
            if (members.isEmpty() || s.twoFaults() && !whole) gone += s.probability();
            else {
                double share = whole ? 1 : kept / all;
                gone += s.probability() * (1 - share);
                left.add(suspect(s, members, s.probability() * share, fresh));
            }
        }
        double scale = 1 / Math.max(1e-6, 1 - gone);
        return scaled(r, left, fresh, scale);
    }

    private static Ranking.Suspect suspect(
            Ranking.Suspect s, List<Ranking.Member> members, double probability, Set<PlaceId> fresh) {
        return new Ranking.Suspect(
                s.rank(),
                probability,
                s.places().stream().filter(p -> !fresh.contains(p.place())).toList(),
                s.words(),
                members,
                s.explains(),
                s.leaves(),
                s.predictsButAbsent(),
                s.evidence(),
                s.tests(),
                s.second());
    }

    private static Ranking scaled(Ranking r, List<Ranking.Suspect> left, Set<PlaceId> fresh, double scale) {
        return new Ranking(
                r.codes(),
                left.stream().map(s -> scaled(s, scale)).toList(),
                r.rollup().stream()
                        .filter(p -> !fresh.contains(p.place()))
                        .map(p -> new Ranking.PlaceShare(p.place(), Math.min(1, p.probability() * scale)))
                        .toList(),
                Math.min(1, r.unlisted() * scale),
                Math.min(1, r.unexplained() * scale),
                r.losers(),
                r.hypotheses());
    }

    private static Ranking.Suspect scaled(Ranking.Suspect s, double scale) {
        return new Ranking.Suspect(
                s.rank(),
                s.probability() * scale,
                s.places().stream()
                        .map(p -> new Ranking.PlaceShare(p.place(), p.probability() * scale))
                        .toList(),
                s.words(),
                s.members().stream()
                        .map(m -> new Ranking.Member(
                                m.id(), m.words(), m.place(), m.probability() * scale, m.edits(), m.subject()))
                        .toList(),
                s.explains(),
                s.leaves(),
                s.predictsButAbsent(),
                s.evidence(),
                s.tests(),
                s.second());
    }
}
