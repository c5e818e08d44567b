package loomcase.job;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Connector;

/**
 * The order in which branches of a loom are laid and plugs are mated.
 *
 * <p>From the control unit's junction outwards: a branch is laid before all that hang on it, so none has to be threaded
 * under another; of several at one junction the one with the most metres behind it comes first, for short ends are easily
 * held aside (common practice, no source). Branches that are not joined to the control unit come last, longest first.
 */
final class Route {
    private final Circuit circuit;
    private final Set<String> branches;
    private final Map<String, List<Branch>> at = new LinkedHashMap<>();
    private final List<Branch> laid = new ArrayList<>();

    /** @param branches ids of the branches to lay */
    Route(Circuit circuit, Set<String> branches) {
        this.circuit = circuit;
        this.branches = Set.copyOf(branches);
        for (Branch b : circuit.branches().values()) {
            at.computeIfAbsent(b.from(), k -> new ArrayList<>()).add(b);
            at.computeIfAbsent(b.to(), k -> new ArrayList<>()).add(b);
        }
        Set<Branch> seen = new HashSet<>();
        for (String c : circuit.controlUnit().connectors())
            walk(circuit.connectors().get(c).at(), seen);
        List<Branch> rest = new ArrayList<>(circuit.branches().values());
        rest.sort(Comparator.comparingDouble((Branch b) -> -b.metres()).thenComparing(Branch::id));
        for (Branch b : rest) if (!seen.contains(b)) walk(b.from(), seen);
    }

    private void walk(String junction, Set<Branch> seen) {
        List<Branch> here = new ArrayList<>(at.getOrDefault(junction, List.of()));
        here.removeIf(seen::contains);
        here.sort(Comparator.comparingDouble((Branch b) -> -behind(b, junction, new HashSet<>(seen)))
                .thenComparing(Branch::id));
        for (Branch b : here) {
            if (!seen.add(b)) continue;
            if (branches.contains(b.id())) laid.add(b);
            walk(far(b, junction), seen);
        }
    }

    /** Metres of a branch and of all that hangs on it. */
    private double behind(Branch b, String from, Set<Branch> seen) {
        if (!seen.add(b)) return 0;
        double sum = b.metres();
        for (Branch next : at.getOrDefault(far(b, from), List.of())) sum += behind(next, far(b, from), seen);
        return sum;
    }

    static String far(Branch b, String junction) {
        return b.from().equals(junction) ? b.to() : b.from();
    }

    /** Branches in the order of laying. */
    List<Branch> laid() {
        return List.copyOf(laid);
    }

    /**
     * Plugs that hang on these branches, in the order of mating: as the branches are laid, the control unit's last. A plug at
     * a junction that a branch outside also reaches belongs here only when one of its wires runs here.
     *
     * @param runsHere whether a wire of the plug runs in one of the branches
     */
    List<Connector> plugs(java.util.function.Predicate<Connector> runsHere) {
        List<Connector> out = new ArrayList<>();
        for (Branch b : laid)
            for (String junction : List.of(b.from(), b.to()))
                for (Connector c : circuit.connectors().values())
                    if (c.at().equals(junction) && !out.contains(c) && runsHere.test(c)) out.add(c);
        out.sort(Comparator.comparing(c -> circuit.controlUnit().connectors().contains(c.id())));
        return out;
    }
}
