package loomcase.meter;

import java.nio.file.Path;
import java.util.List;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.predict.CircuitFacts;
import loomcase.predict.CodeTable;
import loomcase.solve.NetworkSolver;

/** The invented reference harness with a meter on it, and short ways to plant faults. */
final class Larch {
    static final double MISSED = 0.02;

    final Circuit circuit = CircuitReader.read(Path.of("circuits", "larch-13.json"));
    final Layout layout = new Layout(circuit);
    final NetworkSolver solver = new NetworkSolver(circuit, layout);
    final CodeTable table = new CodeTable(
            circuit.watches(),
            Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit)),
            List.of(),
            MISSED);
    final MeterPrediction meter = new MeterPrediction(circuit, layout, solver, table, Observations.builtIn(), 0.3);
    final Setup rest = Setup.on("key-on", "rest");

    static Subject fault(Edit... edits) {
        return new Subject("wire.open", List.of(), false, List.of(edits));
    }

    static Edit open(String wire) {
        return series(wire, Edit.OPEN_OHMS);
    }

    static Edit series(String wire, double ohms) {
        return new Edit.Series(Names.wire(wire), ohms);
    }

    static Edit bridge(String a, String b) {
        return new Edit.Bridge(a, b, Edit.SHORT_OHMS);
    }

    static PlaceId wire(String id) {
        return new PlaceId(PlaceId.Kind.WIRE, id);
    }

    double mean(loomcase.meter.Test test, Edit... edits) {
        return meter.predict(test, fault(edits)).mean();
    }

    boolean overRange(loomcase.meter.Test test, Edit... edits) {
        return meter.predict(test, fault(edits)).probability(new Outcome.OverRange()) == 1;
    }

    /** Probability that a code is active after the test's change. */
    double active(loomcase.meter.Test test, Code code, Edit... edits) {
        return meter.predict(test, fault(edits)).parts().stream()
                .filter(p -> p instanceof Distribution.Atom a
                        && a.outcome() instanceof Outcome.CodesActive c
                        && c.active().contains(code))
                .mapToDouble(Distribution.Part::weight)
                .sum();
    }
}
