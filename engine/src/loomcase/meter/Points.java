package loomcase.meter;

import java.util.Comparator;
import java.util.Optional;
import loomcase.model.Circuit;
import loomcase.model.OperatingPoint;

/** Operating points and phases that tests are usually done at. */
final class Points {
    private Points() {}

    /** Key on, its first phase. */
    static Setup rest(Circuit circuit) {
        OperatingPoint op = circuit.restingPoint();
        return Setup.on(op.id(), op.phases().get(0).id());
    }

    /** Engine running, its first phase; empty where the circuit has no such operating point. */
    static Optional<Setup> running(Circuit circuit) {
        return circuit.firstPoint(true)
                .map(op -> Setup.on(op.id(), op.phases().get(0).id()));
    }

    /** Key on, the phase in which most outputs work, so that paths carry their load. */
    static Setup loaded(Circuit circuit) {
        OperatingPoint op = circuit.restingPoint();
        return Setup.on(
                op.id(),
                op.phases().stream()
                        .max(Comparator.comparingInt(p -> p.on().size()))
                        .orElseThrow()
                        .id());
    }
}
