package loomcase.proof;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import loomcase.j1939.Code;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;

/**
 * What explains the codes seen after the work, the work itself weighed as evidence.
 *
 * @param suspects most probable first, at most {@value #MOST}
 * @param unexplained probability that nothing in the model explains them, 0 to 1
 */
public record AfterWork(List<Suspect> suspects, double unexplained) {
    /** Most suspects listed. */
    public static final int MOST = 5;

    /** Most members of a suspect listed. */
    private static final int MOST_MEMBERS = 4;

    /** Kinds of fault that work at a plug leaves behind, keys of {@code rules/priors.csv}. */
    private static final Set<String> SLIPS =
            Set.of("common.unplugged", "common.half-latched", "contact.backed-out", "common.swapped-cavities");

    /**
     * A slip of the work.
     *
     * @param probability its own, 0 to 1
     */
    public record Slip(String words, double probability) {}

    /**
     * One suspect: faults that the codes cannot tell apart.
     *
     * @param words its likeliest fault
     * @param place where that is
     * @param probability of all its faults together, 0 to 1
     * @param slip true when the likeliest fault is a slip of the work
     * @param slips slips of the work among its faults, likeliest first
     * @param others its likeliest faults at other places that are no slips
     * @param explains codes that it accounts for
     * @param leaves codes that it does not
     */
    public record Suspect(
            String words,
            PlaceId place,
            double probability,
            boolean slip,
            List<Slip> slips,
            List<String> others,
            List<Code> explains,
            List<Code> leaves) {
        public Suspect {
            slips = List.copyOf(slips);
            others = List.copyOf(others);
            explains = List.copyOf(explains);
            leaves = List.copyOf(leaves);
        }

        /** In one sentence without a full stop. */
        public String sentence() {
            String codes = String.join(
                    ", ",
                    (leaves.isEmpty() ? explains : leaves)
                            .stream().map(Code::toString).toList());
            if (explains.isEmpty()) return words + ": explains none";
            return words + (leaves.isEmpty() ? ": explains all" : ": leaves") + " (" + codes + ")";
        }
    }

    public AfterWork {
        suspects = List.copyOf(suspects);
    }

    /** From a ranking whose evidence is what was seen after the work, with the plugs worked at. */
    public static AfterWork of(Ranking ranking) {
        List<Suspect> out = new ArrayList<>();
        for (Ranking.Suspect s : ranking.suspects()) if (out.size() < MOST) out.add(suspect(s));
        return new AfterWork(out, ranking.unexplained());
    }

    private static Suspect suspect(Ranking.Suspect s) {
        Ranking.Member first = s.members().get(0);
        return new Suspect(
                s.twoFaults() ? s.words() : first.words(),
                first.place(),
                s.probability(),
                !s.twoFaults() && isSlip(first),
                s.twoFaults()
                        ? List.of()
                        : s.members().stream()
                                .filter(AfterWork::isSlip)
                                .limit(MOST_MEMBERS)
                                .map(m -> new Slip(m.words(), m.probability()))
                                .toList(),
                s.members().stream()
                        .skip(1)
                        .filter(m -> !isSlip(m) && !m.place().equals(first.place()))
                        .map(Ranking.Member::words)
                        .distinct()
                        .limit(MOST_MEMBERS)
                        .toList(),
                s.explains(),
                s.leaves());
    }

    private static boolean isSlip(Ranking.Member m) {
        return SLIPS.contains(m.subject().family());
    }
}
