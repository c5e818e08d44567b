package loomcase.meter;

import java.util.List;
import java.util.function.ToDoubleFunction;
import loomcase.meter.Outcome.Noticed;
import loomcase.meter.Outcome.Sign;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/**
 * Wiggle, look and swap: what a hand or an eye would notice. With t the share of the fault that lies at the place (1 when
 * it is there, for a wire fault the share of its length in the branch), {@code P = t · p_here + (1 − t) · p_elsewhere};
 * the p stand in {@code rules/observations.csv}.
 */
final class NoticePrediction {
    private final Circuit circuit;
    private final Layout layout;
    private final Observations observations;

    NoticePrediction(Circuit circuit, Layout layout, Observations observations) {
        this.circuit = circuit;
        this.layout = layout;
        this.observations = observations;
    }

    Observations observations() {
        return observations;
    }

    Distribution wiggle(Test.Wiggle test, Subject s) {
        return noticed(s, one -> responds(test, one), Sign.RESPONDS, Sign.STEADY);
    }

    private double responds(Test.Wiggle test, Subject s) {
        double here = observations.get(s.comesAndGoes() ? "wiggle.moved" : "wiggle.lasting");
        double elsewhere = observations.get(s.comesAndGoes() ? "wiggle.elsewhere" : "wiggle.nothing");
        return either(at(test.place(), s), here, elsewhere);
    }

    Distribution look(Test.Look test, Subject s) {
        return noticed(s, one -> found(test, one), Sign.FOUND, Sign.CLEAN);
    }

    private double found(Test.Look test, Subject s) {
        double elsewhere = observations.get("look.false");
        double here = Math.max(elsewhere, observations.nearest("look." + s.family(), elsewhere));
        return either(at(test.place(), s), here, elsewhere);
    }

    Distribution swap(Test.SwapWithNeighbour test, Subject s) {
        return noticed(s, one -> follows(test, one), Sign.FOLLOWS, Sign.STAYS);
    }

    private double follows(Test.SwapWithNeighbour test, Subject s) {
        boolean part = s.places().stream()
                .anyMatch(p -> p.kind() == PlaceId.Kind.DEVICE
                        && (p.id().equals(test.device()) || p.id().equals(test.other())));
        // an engine condition stays with the place, not with the part
        return observations.get(part && !s.family().startsWith("condition") ? "swap.follows" : "swap.false");
    }

    private static double either(double share, double here, double elsewhere) {
        return share * here + (1 - share) * elsewhere;
    }

    private static Distribution noticed(Subject s, ToDoubleFunction<Subject> chance, Sign yes, Sign no) {
        double p = s.both().isEmpty() ? chance.applyAsDouble(s) : ofTwo(s, chance);
        return new Distribution(
                List.of(new Distribution.Atom(p, new Noticed(yes)), new Distribution.Atom(1 - p, new Noticed(no))),
                0,
                2);
    }

    /** Of two faults either may be noticed; what is noticed with nothing there is counted once. */
    private static double ofTwo(Subject s, ToDoubleFunction<Subject> chance) {
        double missed = 1 / (1 - chance.applyAsDouble(Subject.NOTHING));
        for (Subject one : s.both()) missed *= 1 - chance.applyAsDouble(one);
        return Math.max(0, 1 - missed);
    }

    /** Share of a fault that lies at a place, 0 to 1. */
    double at(PlaceId place, Subject s) {
        if (s.places().isEmpty()) return 0;
        boolean branchFirst = s.places().get(0).kind() == PlaceId.Kind.BRANCH;
        double most = 0;
        for (PlaceId p : s.places())
            if (!(branchFirst && p.kind() == PlaceId.Kind.WIRE)) most = Math.max(most, share(place, p));
        return most;
    }

    private double share(PlaceId place, PlaceId fault) {
        if (place.equals(fault)) return 1;
        if (place.kind() == PlaceId.Kind.BRANCH) return inBranch(place.id(), fault);
        if (place.kind() != PlaceId.Kind.CONNECTOR) return 0;
        String owner = fault.kind() == PlaceId.Kind.CAVITY ? Names.connectorOf(fault.id()) : fault.id();
        if (fault.kind() != PlaceId.Kind.CAVITY && fault.kind() != PlaceId.Kind.CONNECTOR) return 0;
        Connector c = circuit.connectors().get(place.id());
        return owner.equals(place.id()) || c != null && owner.equals(c.mates()) ? 1 : 0;
    }

    private double inBranch(String branch, PlaceId fault) {
        if (fault.kind() == PlaceId.Kind.SPLICE) {
            var splice = circuit.splices().get(fault.id());
            return splice != null && splice.branch().equals(branch) ? 1 : 0;
        }
        if (fault.kind() != PlaceId.Kind.WIRE) return 0;
        Wire w = circuit.wires().get(fault.id());
        if (w == null) return 0;
        double here = layout.runs(w.id()).stream()
                .filter(r -> r.branch().equals(branch))
                .mapToDouble(Layout.Run::metres)
                .sum();
        return Math.min(1, here / layout.metres(w));
    }
}
