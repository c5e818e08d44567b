package loomcase.meter;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import loomcase.meter.Outcome.Noticed;
import loomcase.meter.Outcome.Sign;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Finding;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/**
 * Wiggle, look, swap and gauge: what a hand, an eye or an instrument of its own would notice. With t the share of the fault
 * that lies at the place (1 when it is there, for a wire fault the share of its length in the branch), {@code P = t · p_here
 * + (1 − t) · p_elsewhere}; the p stand in {@code rules/observations.csv}. Of what a look finds at the fault the share {@code
 * look.typical} is what is usual for it ({@link TypicalFindings}), the rest is as likely to be anything.
 */
final class NoticePrediction {
    /** How many things somebody may see who sees nothing usual; they are taken to be equally likely (judgement). */
    private static final int ODD_FINDINGS = 6;

    /** Of what is usually seen of a fault the share of all but the most usual (judgement). */
    private static final double OTHERS = 0.4;

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
        double all = chance(s, one -> found(test, one));
        Map<Finding, Double> typical = new LinkedHashMap<>();
        if (s.both().isEmpty()) typical(test, s, 1, typical);
        else {
            double first = typical(test, s.both().get(0), 1, typical);
            typical(test, s.both().get(1), 1 - first, typical);
        }
        double odd =
                all - typical.values().stream().mapToDouble(Double::doubleValue).sum();
        List<Distribution.Part> parts = new ArrayList<>();
        parts.add(new Distribution.Atom((1 - all) / (1 - odd), Outcome.Seen.CLEAN));
        typical.forEach((f, p) -> parts.add(new Distribution.Atom(p / (1 - odd), new Outcome.Seen(f))));
        return new Distribution(parts, Math.max(0, odd), ODD_FINDINGS);
    }

    /**
     * Adds what is usually seen of a fault to its findings.
     *
     * @param share of its probability that counts
     * @return probability of all of it
     */
    private double typical(Test.Look test, Subject s, double share, Map<Finding, Double> to) {
        List<Finding> usual = TypicalFindings.of(s.family());
        double here = at(test, s) * seen(test.place(), s.family(), 0) * observations.get("look.typical") * share;
        if (usual.isEmpty() || here == 0) return 0;
        double others = usual.size() == 1 ? 0 : OTHERS;
        for (int i = 0; i < usual.size(); i++)
            to.merge(usual.get(i), here * (i == 0 ? 1 - others : others / (usual.size() - 1)), Double::sum);
        return here;
    }

    private double found(Test.Look test, Subject s) {
        double elsewhere = observations.get("look.false");
        double here = Math.max(elsewhere, seen(test.place(), s.family(), elsewhere));
        return either(at(test, s), here, elsewhere);
    }

    /** Who looks at one rub point does not see what is worn at another of the branch. */
    private double at(Test.Look test, Subject s) {
        boolean other = test.rubPoint().isPresent()
                && s.rubPoint().isPresent()
                && !s.rubPoint().equals(test.rubPoint());
        return other ? 0 : at(test.place(), s);
    }

    /** A single cavity is felt as well as looked at. */
    private double seen(PlaceId place, String family, double otherwise) {
        double look = observations.nearest("look." + family, otherwise);
        return place.kind() == PlaceId.Kind.CAVITY ? observations.nearest("feel." + family, look) : look;
    }

    Distribution swap(Test.SwapWithNeighbour test, Subject s) {
        return noticed(s, one -> follows(test, one), Sign.FOLLOWS, Sign.STAYS);
    }

    private double follows(Test.SwapWithNeighbour test, Subject s) {
        boolean part = s.places().stream()
                .anyMatch(p -> p.kind() == PlaceId.Kind.DEVICE
                        && (p.id().equals(test.device()) || p.id().equals(test.other())));
        // an engine condition stays with the place, not with the part
        return observations.get(part && !s.isCondition() ? "swap.follows" : "swap.false");
    }

    /** The condition that is there, now and then another: read at another moment or place. */
    Distribution gauge(Test.Gauge test, Subject s) {
        List<Device.Condition> known = circuit.devices().get(test.device()).conditions();
        Outcome.Condition there = known.stream()
                .filter(c -> isTrue(test.device(), c, s))
                .findFirst()
                .map(Outcome.Condition::of)
                .orElse(Outcome.Condition.HEALTHY);
        double right = observations.get("gauge.right");
        List<Distribution.Part> parts = new ArrayList<>();
        Stream.concat(known.stream().map(Outcome.Condition::of), Stream.of(Outcome.Condition.HEALTHY))
                .forEach(
                        o -> parts.add(new Distribution.Atom(o.equals(there) ? right : (1 - right) / known.size(), o)));
        return new Distribution(parts, 0, parts.size());
    }

    private static boolean isTrue(String device, Device.Condition condition, Subject s) {
        if (!s.both().isEmpty()) return s.both().stream().anyMatch(one -> isTrue(device, condition, one));
        return s.isCondition() && s.edits().contains(new Edit.Value(device, condition.quantity(), condition.value()));
    }

    private static double either(double share, double here, double elsewhere) {
        return share * here + (1 - share) * elsewhere;
    }

    private static Distribution noticed(Subject s, ToDoubleFunction<Subject> chance, Sign yes, Sign no) {
        double p = chance(s, chance);
        return new Distribution(
                List.of(new Distribution.Atom(p, new Noticed(yes)), new Distribution.Atom(1 - p, new Noticed(no))),
                0,
                2);
    }

    private static double chance(Subject s, ToDoubleFunction<Subject> chance) {
        return s.both().isEmpty() ? chance.applyAsDouble(s) : ofTwo(s, chance);
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
        // a plug that hangs free or is wet shows to who looks into any of its cavities
        if (place.kind() == PlaceId.Kind.CAVITY && fault.kind() == PlaceId.Kind.CONNECTOR)
            return samePlug(Names.connectorOf(place.id()), fault.id()) ? 1 : 0;
        if (place.kind() != PlaceId.Kind.CONNECTOR) return 0;
        String owner = fault.kind() == PlaceId.Kind.CAVITY ? Names.connectorOf(fault.id()) : fault.id();
        if (fault.kind() != PlaceId.Kind.CAVITY && fault.kind() != PlaceId.Kind.CONNECTOR) return 0;
        return samePlug(place.id(), owner) ? 1 : 0;
    }

    private boolean samePlug(String one, String other) {
        Connector c = circuit.connectors().get(one);
        return one.equals(other) || c != null && other.equals(c.mates());
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
