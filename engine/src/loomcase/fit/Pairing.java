package loomcase.fit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.ToDoubleBiFunction;

/**
 * Pairs the things of two lists by how alike they are: always the most alike pair that is left (greedy), equal ones in list
 * order. Cost n·m scores for n and m things.
 *
 * <p>An id that is the same on both sides only breaks a tie: ids may be given anew from one build year to the next.
 */
final class Pairing {
    /** Two scores that differ by less are as good as each other. */
    private static final double NEAR = 0.3;

    /** What the same id is worth, less than any real likeness. */
    private static final double SAME_ID = 0.01;

    /** What is paired. */
    record Pair(String old, String neu, Sure sure, Optional<String> rival) {}

    private record Scored(int old, int neu, double likeness, double score) {}

    private Pairing() {}

    /**
     * @param least likeness below which two things are not the same
     * @param certain likeness from which a pair without a rival is certain
     * @param likeness how alike two ids are, without regard to the ids themselves
     * @return pairs by old id, in the order of {@code olds}
     */
    static Map<String, Pair> of(
            List<String> olds,
            List<String> news,
            double least,
            double certain,
            ToDoubleBiFunction<String, String> likeness) {
        List<Scored> all = new ArrayList<>();
        for (int i = 0; i < olds.size(); i++)
            for (int j = 0; j < news.size(); j++) {
                double like = likeness.applyAsDouble(olds.get(i), news.get(j));
                if (like < least) continue;
                all.add(new Scored(i, j, like, like + (olds.get(i).equals(news.get(j)) ? SAME_ID : 0)));
            }
        all.sort(Comparator.comparingDouble((Scored s) -> -s.score)
                .thenComparingInt(Scored::old)
                .thenComparingInt(Scored::neu));
        Map<Integer, Scored> chosen = new LinkedHashMap<>();
        Set<Integer> taken = new HashSet<>();
        for (Scored s : all) if (!chosen.containsKey(s.old) && taken.add(s.neu)) chosen.put(s.old, s);
        Map<String, Pair> out = new LinkedHashMap<>();
        for (int i = 0; i < olds.size(); i++)
            if (chosen.containsKey(i)) out.put(olds.get(i), pair(chosen.get(i), all, olds, news, certain));
        return out;
    }

    private static Pair pair(Scored s, List<Scored> all, List<String> olds, List<String> news, double certain) {
        Optional<String> rival = all.stream()
                .filter(o -> (o.old == s.old) != (o.neu == s.neu) && o.likeness > s.likeness - NEAR)
                .map(o -> o.old == s.old ? news.get(o.neu) : olds.get(o.old))
                .findFirst();
        Sure sure = rival.isPresent() ? Sure.AMBIGUOUS : s.likeness >= certain ? Sure.CERTAIN : Sure.LIKELY;
        return new Pair(olds.get(s.old), news.get(s.neu), sure, rival);
    }

    /** Share of what two sets have in common, 0 to 1 (Jaccard); 0 where both are empty. */
    static double overlap(Set<String> a, Set<String> b) {
        if (a.isEmpty() && b.isEmpty()) return 0;
        Set<String> both = new HashSet<>(a);
        both.retainAll(b);
        return both.size() / (double) (a.size() + b.size() - both.size());
    }
}
