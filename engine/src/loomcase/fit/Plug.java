package loomcase.fit;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * One plug of a harness as far as it is known.
 *
 * @param id as the file names it
 * @param label in words, empty for not known
 * @param mate what it plugs into, in words that are the same in both harnesses; empty for not known
 * @param inline id of the plug of the same harness that it plugs into, if it does
 * @param rows cavity names row by row on the mating face; where {@code rowsKnown} is false only those that were listed
 * @param rowsKnown whether the rows are those of the part
 * @param terminal terminal family, empty for not known
 * @param sealed whether it is sealed, where known
 * @param keying key of the mating face, empty for not known
 * @param colour of the housing, empty for not known
 * @param latch kind and side, empty for not known
 * @param seal seals, empty for not known
 * @param secondaryLock whether it has one, where known
 * @param leads what comes to each cavity that carries a wire
 */
record Plug(
        String id,
        String label,
        String mate,
        Optional<String> inline,
        List<List<String>> rows,
        boolean rowsKnown,
        String terminal,
        Optional<Boolean> sealed,
        String keying,
        String colour,
        String latch,
        String seal,
        Optional<Boolean> secondaryLock,
        Map<String, Lead> leads) {
    Plug {
        rows = rows.stream().map(List::copyOf).toList();
        leads = Collections.unmodifiableMap(new LinkedHashMap<>(leads));
    }

    /** Every cavity, row by row. */
    List<String> cavities() {
        return rows.stream().flatMap(List::stream).toList();
    }

    /** Everything that its wires serve. */
    Set<String> serves() {
        Set<String> out = new LinkedHashSet<>();
        leads.values().forEach(l -> out.addAll(l.serves()));
        return out;
    }

    /** Everything that its wires carry, in words. */
    Set<String> circuits() {
        Set<String> out = new LinkedHashSet<>();
        leads.values().stream().map(Lead::circuit).filter(c -> !c.isEmpty()).forEach(out::add);
        return out;
    }

    /** Id with its label. */
    String name() {
        return label.isEmpty() ? id : id + " (" + label + ")";
    }
}
