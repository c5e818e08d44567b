package loomcase.rank;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.faults.Hypothesis;
import loomcase.model.Edit;

/**
 * Everything that one fault, or one hit of a common cause, does to a circuit, each once and in a stable order.
 *
 * @param edits lists of edits that differ
 * @param number for each hypothesis with fixed edits its place in that list, −1 for a common cause
 */
record Singles(List<List<Edit>> edits, int[] number) {
    static final Singles NONE = new Singles(List.of(), new int[0]);

    static Singles of(List<Hypothesis> hypotheses) {
        Map<List<Edit>, Integer> all = new LinkedHashMap<>(2 * hypotheses.size());
        int[] number = new int[hypotheses.size()];
        for (int i = 0; i < number.length; i++) {
            number[i] = -1;
            if (hypotheses.get(i).cause() instanceof Hypothesis.Fixed f) number[i] = add(f.edits(), all);
            else if (hypotheses.get(i).cause() instanceof Hypothesis.AnyOf a)
                a.hits().forEach(hit -> add(hit.edits(), all));
        }
        return new Singles(List.copyOf(all.keySet()), number);
    }

    private static int add(List<Edit> edits, Map<List<Edit>, Integer> all) {
        int next = all.size();
        Integer known = all.putIfAbsent(edits, next);
        return known == null ? next : known;
    }
}
