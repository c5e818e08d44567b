package loomcase.meter;

import java.util.Comparator;
import java.util.Optional;
import loomcase.model.Circuit;
import loomcase.model.OperatingPoint;

/** Operating points and phases that tests are usually done at. */
final class Points {
    private Points() {}

    /** The first operating point with the engine stopped, else the first. */
    static OperatingPoint keyOn(Circuit circuit) {
        return circuit.operatingPoints().values().stream()
                .filter(o -> !o.engineRunning())
                .findFirst()
                .orElseGet(() -> circuit.operatingPoints().values().iterator().next());
    }

    /** Key on, its first phase. */
    static Setup rest(Circuit circuit) {
        OperatingPoint op = keyOn(circuit);
        return Setup.on(op.id(), op.phases().get(0).id());
    }

    /** Engine running, its first phase; empty where the circuit has no such operating point. */
    static Optional<Setup> running(Circuit circuit) {
        return circuit.operatingPoints().values().stream()
                .filter(OperatingPoint::engineRunning)
                .findFirst()
                .map(op -> Setup.on(op.id(), op.phases().get(0).id()));
    }

    /** Key on, the phase in which most outputs work, so that paths carry their load. */
    static Setup loaded(Circuit circuit) {
        OperatingPoint op = keyOn(circuit);
        return Setup.on(
                op.id(),
                op.phases().stream()
                        .max(Comparator.comparingInt(p -> p.on().size()))
                        .orElseThrow()
                        .id());
    }
}
