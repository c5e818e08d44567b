package loomcase.intake;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import loomcase.InputProblem;
import loomcase.j1939.Code;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.Standing;
import loomcase.meter.Meter;
import loomcase.meter.Outcome;
import loomcase.meter.Setup;
import loomcase.meter.Test;
import loomcase.model.Circuit;
import loomcase.model.OperatingPoint;
import loomcase.model.PlaceId;
import loomcase.rank.Evidence;

/**
 * What a case journal says, as evidence: the codes read last, every test since, what is open and what was refused.
 *
 * @param intake evidence and what was assumed
 * @param openAccess ids of access steps open now
 * @param refused ids of tests that will not be done
 * @param looked what was looked at since the last repair, and before it what {@code Kept} lets stand; clean places among it
 * @param repaired places worked on before, each time once
 */
public record CaseIntake(
        Intake intake, Set<String> openAccess, Set<String> refused, List<Fact.Seen> looked, List<PlaceId> repaired) {
    /** Plain wire and two clips (judgement). */
    private static final double PLAIN_LEAD_OHMS = 0.1;

    public CaseIntake {
        openAccess = Set.copyOf(openAccess);
        refused = Set.copyOf(refused);
        looked = List.copyOf(looked);
        repaired = List.copyOf(repaired);
    }

    /** Evidence that comes from no case. */
    public static CaseIntake of(Intake intake) {
        return new CaseIntake(intake, Set.of(), Set.of(), List.of(), List.of());
    }

    /**
     * Reads a journal as evidence about its circuit. Tests made before a repair that changed the codes say nothing about the
     * engine as it is now and are left out, those before one that changed nothing are kept ({@code Kept}), with a note.
     *
     * @throws InputProblem when the case has no codes yet
     */
    public static CaseIntake of(Circuit circuit, Journal journal) {
        List<Fact> facts = journal.standing().stream().map(Standing::fact).toList();
        return of(circuit, facts, journal.openAccess(), List.of());
    }

    /**
     * Facts that hold, in order, as evidence about a circuit.
     *
     * @param openAccess ids of access steps open now
     * @param before notes that stand before those made here
     * @throws InputProblem when no codes are among the facts
     */
    public static CaseIntake of(Circuit circuit, List<Fact> standing, Set<String> openAccess, List<String> before) {
        List<String> notes = new ArrayList<>(before);
        Optional<Fact.Codes> codes = Optional.empty();
        Set<Code> everSeen = new TreeSet<>();
        Set<String> refused = new LinkedHashSet<>();
        List<PlaceId> places = new ArrayList<>();
        for (Fact f : standing) {
            if (f instanceof Fact.Codes c) {
                codes = Optional.of(c);
                c.codes().forEach(r -> everSeen.add(r.code()));
            }
            if (f instanceof Fact.Refused r) refused.add(r.test());
            if (f instanceof Fact.Work w && w.spot().isPresent())
                places.add(w.spot().get().place());
        }
        if (codes.isEmpty())
            throw new InputProblem("the case has no codes yet; add them with: record CASE codes SPN/FMI,...");
        Worked worked = new Worked(circuit, standing);
        Kept kept = new Kept(circuit, worked);
        List<Fact.Seen> looked = new ArrayList<>();
        List<Evidence.Tested> tested = new ArrayList<>();
        for (int i = 0; i < standing.size(); i++) {
            Optional<Evidence.Tested> t = tested(circuit, standing.get(i), everSeen, notes);
            if (!kept.keeps(i, t.map(Evidence.Tested::test))) continue;
            t.ifPresent(tested::add);
            if (standing.get(i) instanceof Fact.Seen s) looked.add(s);
        }
        notes.addAll(kept.notes());
        notes.addAll(Disagreeing.notes(tested));
        List<Evidence.Seen> seen = codes.get().codes().stream()
                .map(c -> new Evidence.Seen(
                        c.code(),
                        c.state() == Fact.State.ACTIVE ? Evidence.State.ACTIVE : Evidence.State.STORED,
                        c.count()))
                .toList();
        Evidence evidence = new Evidence(seen, codes.get().operatingPoints(), tested, worked.before(codes.get()));
        return new CaseIntake(new Intake(evidence, notes), openAccess, refused, looked, places);
    }

    /** The test that a line of a case is, with what it gave; empty for a line that is none. */
    public static Optional<Evidence.Tested> tested(Circuit circuit, Fact fact) {
        return tested(circuit, fact, Set.of(), new ArrayList<>());
    }

    private static Optional<Evidence.Tested> tested(Circuit circuit, Fact fact, Set<Code> codes, List<String> notes) {
        if (fact instanceof Fact.Reading r) return Optional.of(reading(circuit, r));
        if (fact instanceof Fact.Watched w) return watched(circuit, w, codes, notes);
        if (fact instanceof Fact.Moved m)
            return Optional.of(new Evidence.Tested(
                    new Test.Wiggle(
                            m.spot().place(),
                            m.setup()
                                    .operatingPoint()
                                    .orElse(circuit.restingPoint().id())),
                    new Outcome.Noticed(m.response() ? Outcome.Sign.RESPONDS : Outcome.Sign.STEADY)));
        if (fact instanceof Fact.Seen s)
            return Optional.of(new Evidence.Tested(
                    new Test.Look(s.spot().place(), s.spot().rubPoint()), new Outcome.Seen(s.finding())));
        if (fact instanceof Fact.Swapped s && s.outcome() != Fact.Outcome.GONE)
            return Optional.of(new Evidence.Tested(
                    new Test.SwapWithNeighbour(
                            s.part().place().id(), s.with().place().id()),
                    new Outcome.Noticed(
                            s.outcome() == Fact.Outcome.FOLLOWED ? Outcome.Sign.FOLLOWS : Outcome.Sign.STAYS)));
        if (fact instanceof Fact.Gauged g)
            return Optional.of(new Evidence.Tested(
                    new Test.Gauge(g.part().place().id()),
                    circuit.devices()
                            .get(g.part().place().id())
                            .condition(g.condition())
                            .map(Outcome.Condition::of)
                            .orElse(Outcome.Condition.HEALTHY)));
        return Optional.empty();
    }

    private static Evidence.Tested reading(Circuit circuit, Fact.Reading r) {
        Setup setup = setup(circuit, r);
        Test test =
                switch (r.test()) {
                    case VOLTS -> new Test.Volts(r.a(), r.b(), setup);
                    case OHMS -> new Test.Ohms(r.a(), r.b(), setup);
                    case DROP -> new Test.Drop(r.a(), r.b(), setup);
                    case ISOLATION -> new Test.Isolation(r.a(), r.b(), setup);
                };
        OptionalDouble value = r.shown().value();
        Outcome.Unit unit =
                r.test().quantity() == loomcase.journal.Shown.Quantity.VOLTS ? Outcome.Unit.VOLTS : Outcome.Unit.OHMS;
        return new Evidence.Tested(
                test, value.isPresent() ? new Outcome.Reading(value.getAsDouble(), unit) : new Outcome.OverRange());
    }

    /** A setup as a case says it, as a test has it; the first phase of the operating point when none is named. */
    public static Setup setup(Circuit circuit, loomcase.journal.Setup s) {
        Setup out;
        if (s.operatingPoint().isPresent()) {
            OperatingPoint op = circuit.operatingPoints().get(s.operatingPoint().get());
            out = Setup.on(op.id(), s.phase().orElse(op.phases().get(0).id()));
        } else out = Setup.off();
        out = out.unplug(s.unplugged());
        for (loomcase.journal.Jumper j : s.jumpers()) out = out.jump(j.from(), j.to(), lead(j));
        return s.wireCelsius().isPresent() ? out.wiresAt(s.wireCelsius().getAsDouble()) : out;
    }

    private static Setup setup(Circuit circuit, Fact.Reading r) {
        Setup out = setup(circuit, r.setup());
        if (r.meter().inputOhms().isEmpty()) return out;
        Meter usual = Meter.USUAL;
        return out.with(new Meter(
                r.meter().inputOhms().getAsDouble(),
                usual.leadOhms(),
                true,
                usual.testVolts(),
                usual.testOhms(),
                usual.fullScaleOhms()));
    }

    private static Optional<Evidence.Tested> watched(
            Circuit circuit, Fact.Watched w, Set<Code> seen, List<String> notes) {
        if (w.setup().unplugged().size() != 1) {
            notes.add("a watch with " + w.setup().unplugged().size() + " plugs apart is kept, but not weighed");
            return Optional.empty();
        }
        String connector = w.setup().unplugged().get(0);
        Set<Code> codes = new TreeSet<>(seen);
        codes.addAll(w.active());
        String mate = circuit.connectors().get(connector).mates();
        circuit.watches().stream()
                .filter(x -> x.device().equals(mate))
                .forEach(x -> codes.add(new Code(x.spn(), x.fmi())));
        List<Code> watch = List.copyOf(codes);
        String op = w.setup().operatingPoint().orElseThrow();
        Outcome outcome = new Outcome.CodesActive(w.active());
        if (w.method() == Fact.Method.UNPLUG)
            return Optional.of(new Evidence.Tested(new Test.UnplugAndWatch(connector, watch, op), outcome));
        loomcase.journal.Jumper j = w.setup().jumpers().get(0);
        return Optional.of(
                new Evidence.Tested(new Test.JumperAndWatch(connector, j.from(), j.to(), lead(j), watch, op), outcome));
    }

    /** Ohms of a lead; one recorded without a resistance is plain wire with its clips. */
    private static double lead(loomcase.journal.Jumper jumper) {
        return Math.max(PLAIN_LEAD_OHMS, jumper.ohms());
    }
}
