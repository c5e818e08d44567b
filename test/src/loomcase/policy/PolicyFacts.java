package loomcase.policy;

import java.util.ArrayList;
import java.util.List;

/** An invented engine that gives every built-in rule something to say. */
final class PolicyFacts {
    private PolicyFacts() {}

    static WatchedCode code(int spn, int fmi, String kind, String device, String supply) {
        return new WatchedCode(spn, fmi, kind, device, supply, "", "");
    }

    static List<WatchedCode> codes() {
        List<WatchedCode> codes = new ArrayList<>();
        int spn = 1000;
        for (String kind : CircuitKinds.ALL) {
            for (int fmi : new int[] {2, 3, 4, 5, 6, 9, 16}) {
                codes.add(code(spn, fmi, kind, kind + "-1", "rail-" + kind));
            }
            spn += 10;
        }
        codes.add(code(2000, 3, "supply", "", "rail-ntc"));
        codes.add(code(2010, 5, "injector", "injector-2", "rail-injector"));
        codes.add(code(2020, 7, "bridge", "bridge-1", ""));
        codes.add(code(2030, 7, "bridge", "position-1", ""));
        return codes;
    }

    static PlaceFact place(String id, String kind, String circuitKinds) {
        return new PlaceFact(id, kind, "", circuitKinds, 20, false, false, false, false);
    }

    static List<PlaceFact> places() {
        return List.of(
                place("plain", "wire", "ntc"),
                place("injector plug", "connector", "injector"),
                place("network plug", "connector", "network, node"),
                place("battery post", "device", "power"),
                new PlaceFact("engine front", "branch", "", "", 110, true, true, true, false),
                new PlaceFact("valve cover plug", "connector", "", "", 110, false, false, false, true));
    }

    /** Every harm that the rules speak of. */
    static List<HarmFact> harms() {
        return java.util.Arrays.stream(loomcase.meter.Harm.values())
                .map(h -> new HarmFact(h.key()))
                .toList();
    }
}
