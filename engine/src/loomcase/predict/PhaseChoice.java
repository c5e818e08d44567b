package loomcase.predict;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import loomcase.model.Circuit;
import loomcase.model.OperatingPoint;

/**
 * Which phases of an operating point have to be solved for some codes: those that the watches behind the codes look at, and
 * those in which a driver of the control unit is on that is on in none of them with all the others of its phase. The unit is
 * silent when its supply is too low in any phase; one that differs from a chosen one only by what another device does, such
 * as a node that talks on the network, is taken to load that supply no more, and is left out.
 */
final class PhaseChoice {
    private PhaseChoice() {}

    /**
     * The ids of the phases, in alphabetical order.
     *
     * @param watches numbers of the watches behind the codes
     */
    static Set<String> of(Circuit circuit, OperatingPoint op, BitSet watches) {
        Map<String, Set<String>> driversOn = new LinkedHashMap<>();
        Set<String> out = new TreeSet<>();
        for (int w = 0; w < circuit.watches().size(); w++)
            if (circuit.watches().get(w).operatingPoints().contains(op.id()))
                for (String phase : circuit.watches().get(w).measure().phases()) {
                    driversOn.computeIfAbsent(phase, p -> driversOn(circuit, op, p));
                    if (watches.get(w)) out.add(phase);
                }
        List<String> others = new ArrayList<>(driversOn.keySet());
        others.sort(Comparator.comparingInt((String p) -> -driversOn.get(p).size()));
        for (String p : others)
            if (out.stream().noneMatch(chosen -> driversOn.get(chosen).containsAll(driversOn.get(p)))) out.add(p);
        return out;
    }

    private static Set<String> driversOn(Circuit circuit, OperatingPoint op, String phase) {
        Set<String> out = new HashSet<>();
        for (OperatingPoint.Phase p : op.phases()) if (p.id().equals(phase)) out.addAll(p.on());
        out.retainAll(circuit.controlUnit().pins().keySet());
        return out;
    }
}
