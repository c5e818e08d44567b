package loomcase.fit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.fit.Difference.Severity;
import loomcase.fit.Difference.Subject;

/** Gathers differences and what could not be compared while two harnesses are gone through. */
final class Findings {
    private final List<Difference> differences = new ArrayList<>();
    private final Map<String, List<String>> notKnown = new LinkedHashMap<>();
    private final Map<String, Boolean> matters = new LinkedHashMap<>();

    void add(
            Subject subject,
            Severity severity,
            String where,
            String what,
            String consequence,
            String action,
            String source) {
        differences.add(new Difference(subject, severity, where, what, consequence, action, source));
    }

    /** Something that one of the files does not say. */
    void notKnown(String what, String where, boolean itMatters) {
        notKnown.computeIfAbsent(what, k -> new ArrayList<>()).add(where);
        matters.merge(what, itMatters, Boolean::logicalOr);
    }

    /** Worst first, in the order found. */
    List<Difference> differences() {
        List<Difference> out = new ArrayList<>(differences);
        out.sort(java.util.Comparator.comparing(Difference::severity));
        return List.copyOf(out);
    }

    List<Difference.NotKnown> notKnown() {
        return notKnown.entrySet().stream()
                .map(e -> new Difference.NotKnown(
                        e.getKey(),
                        String.join(", ", e.getValue().stream().distinct().toList()),
                        matters.get(e.getKey())))
                .toList();
    }
}
