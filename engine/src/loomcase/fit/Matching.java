package loomcase.fit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import loomcase.model.Circuit;
import loomcase.model.Device;
import loomcase.model.Watch;

/**
 * Which plug and which device of the new harness is which of the old.
 *
 * <p>Devices are told by what they are, what they are called and which parameters (SPN) are watched on them; plugs by what
 * they plug into and what their wires serve, then by label and mating face. Points of likeness are judgement.
 *
 * @param neu the new harness with its devices named as in the old
 * @param plugs pairs by old plug
 * @param devices pairs by old device; empty for a list
 */
record Matching(Harness old, Harness neu, Map<String, Pairing.Pair> plugs, Map<String, Pairing.Pair> devices) {

    /** Two whole circuits. */
    static Matching of(Circuit old, Circuit neu) {
        Map<String, Pairing.Pair> devices = Pairing.of(
                List.copyOf(old.devices().keySet()),
                List.copyOf(neu.devices().keySet()),
                3,
                4.9,
                (a, b) -> alike(old, old.devices().get(a), neu, neu.devices().get(b)));
        Map<String, String> names = new LinkedHashMap<>();
        devices.values().forEach(p -> names.put(p.neu(), p.old()));
        Harness oldHarness = Harness.of(old, self(old));
        Harness newHarness = Harness.of(neu, names);
        return new Matching(oldHarness, newHarness, pair(oldHarness, newHarness, 3, 6.9), devices);
    }

    /** A circuit and a list. */
    static Matching of(Circuit old, Harness list) {
        Harness oldHarness = Harness.of(old, self(old));
        return new Matching(oldHarness, list, pair(oldHarness, list, 1.5, 3.9), Map.of());
    }

    private static Map<String, String> self(Circuit c) {
        return c.devices().keySet().stream().collect(Collectors.toMap(d -> d, d -> d));
    }

    private static double alike(Circuit old, Device a, Circuit neu, Device b) {
        if (!a.nature().word().equals(b.nature().word())) return 0;
        double points = 2;
        if (a.label().equalsIgnoreCase(b.label())) points += 3;
        points += 3 * Pairing.overlap(parameters(old, a), parameters(neu, b));
        if (a.nature().equals(b.nature())) points += 1;
        return points;
    }

    private static Set<String> parameters(Circuit c, Device d) {
        Set<String> out = new TreeSet<>();
        for (Watch w : c.watches()) if (w.device().equals(d.id())) out.add(String.valueOf(w.spn()));
        return out;
    }

    private static Map<String, Pairing.Pair> pair(Harness old, Harness neu, double least, double certain) {
        return Pairing.of(
                List.copyOf(old.plugs().keySet()),
                List.copyOf(neu.plugs().keySet()),
                least,
                certain,
                (a, b) -> alike(
                        old.plugs().get(a), neu.plugs().get(b), neu.circuit().isPresent()));
    }

    private static double alike(Plug a, Plug b, boolean whole) {
        double points = 0;
        if (whole) {
            if (a.inline().isPresent() != b.inline().isPresent()) return 0;
            if (a.inline().isEmpty() && !a.mate().equals(b.mate())) return 0;
            points = a.inline().isPresent() ? 2 : 4;
            points += 4 * Pairing.overlap(a.serves(), b.serves());
        } else {
            points += 5 * Pairing.overlap(a.circuits(), b.circuits());
            if (a.id().equals(b.id())) points += 2;
        }
        if (!a.label().isEmpty() && a.label().equalsIgnoreCase(b.label())) points += 2;
        if (a.rows().equals(b.rows())) points += 1;
        return points;
    }

    /** Old plugs without a partner. */
    List<String> missing() {
        List<String> out = new ArrayList<>(old.plugs().keySet());
        out.removeAll(plugs.keySet());
        return out;
    }

    /** New plugs without a partner. */
    List<String> extra() {
        List<String> out = new ArrayList<>(neu.plugs().keySet());
        plugs.values().forEach(p -> out.remove(p.neu()));
        return out;
    }
}
