package loomcase.policy;

import java.util.List;

/** The words for kinds of circuit that rules may use, in the order in which messages list them. */
public final class CircuitKinds {
    public static final List<String> ALL = List.of(
            "ntc",
            "ratiometric-pull-down",
            "ratiometric-pull-up",
            "hall",
            "variable-reluctance",
            "low-side",
            "high-side",
            "injector",
            "bridge",
            "node",
            "supply",
            "network",
            "probe",
            "position",
            "power");

    private CircuitKinds() {}

    static void require(String kind) {
        if (!ALL.contains(kind)) {
            throw new IllegalArgumentException(
                    "circuit kind \"" + kind + "\" is not known; allowed are " + String.join(", ", ALL));
        }
    }
}
