package loomcase.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.intake.CaseIntake;
import loomcase.j1939.Code;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.journal.Admission;
import loomcase.journal.EntryCheck;
import loomcase.journal.Fact;
import loomcase.journal.Shown;
import loomcase.meter.Outcome;
import loomcase.meter.Setup;
import loomcase.meter.Test;
import loomcase.model.Access;
import loomcase.model.AccessStep;
import loomcase.model.Circuit;
import loomcase.model.Finding;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.rank.Evidence;

/**
 * Answers what a student asks for: refuses what cannot be done, otherwise gives the line of the run with its outcome.
 *
 * <p>Nothing is opened on the side: a place whose access is closed is refused and the steps are named. Harmful tests are
 * done, with what comes of them.
 */
public final class Workshop {
    private final Drill drill;
    private final Circuit circuit;
    private final Engine engine;
    private final Prices prices;
    private final Harms harms;
    private final Repairs repairs;
    private final Access access;
    private final EntryCheck check;

    public Workshop(Bench bench, Drill drill, Truth truth) {
        this.drill = drill;
        this.circuit = bench.circuit();
        this.engine = new Engine(bench, truth);
        this.prices = new Prices(bench, drill.limits());
        this.harms = new Harms(engine, prices);
        this.repairs = new Repairs(circuit, bench.layout());
        this.access = new Access(circuit);
        this.check = new EntryCheck(circuit);
    }

    /** The public part of the drill. */
    public Drill drill() {
        return drill;
    }

    /** The engine. */
    public Engine engine() {
        return engine;
    }

    /** What may be named. */
    public EntryCheck check() {
        return check;
    }

    Prices prices() {
        return prices;
    }

    Harms harms() {
        return harms;
    }

    Repairs repairs() {
        return repairs;
    }

    /**
     * What comes of a request.
     *
     * @param line number of the line that it will be
     * @throws InputProblem when it cannot be done; nothing happened then
     */
    public Fact answer(Run run, Request request, int line) {
        run.ending().ifPresent(e -> {
            throw new InputProblem("the run is over: " + e.words());
        });
        try {
            return done(run, request, line);
        } catch (IllegalArgumentException e) {
            throw new InputProblem(e.getMessage(), e);
        }
    }

    private Fact done(Run run, Request request, int line) {
        if (request instanceof Request.Measure m) return measure(run, m, line);
        if (request instanceof Request.Watch w) return watch(run, w, line);
        if (request instanceof Request.Move m) return move(run, m, line);
        if (request instanceof Request.Look l) return look(run, l);
        if (request instanceof Request.Swap s) return swap(run, s);
        if (request instanceof Request.Gauge g) return gauge(run, g);
        if (request instanceof Request.Way w) return way(run, w);
        if (request instanceof Request.Read r) return read(run, r, line);
        if (request instanceof Request.Work w) return work(run, w);
        if (request instanceof Request.Hint) return hint(run);
        if (request instanceof Request.Claim c) return claim(c);
        if (request instanceof Request.GiveUp) return RunNote.gaveUp();
        if (request instanceof Request.Note n) return note(n);
        throw new IllegalStateException("unknown request " + request);
    }

    private static Fact note(Request.Note n) {
        if (n.text().startsWith(RunNote.MARK))
            throw new InputProblem("a note may not start with '" + RunNote.MARK + "'; those are the drill's own");
        return new Fact.Note(n.text());
    }

    private Fact admitted(Fact fact) {
        if (check.admit(fact) instanceof Admission.Refused r) throw new InputProblem(r.reason());
        return fact;
    }

    private void reachable(Run run, List<PlaceId> places) {
        List<AccessStep> closed = access.steps(places).stream()
                .filter(s -> !run.open().contains(s))
                .map(s -> circuit.access().get(s))
                .toList();
        if (closed.isEmpty()) return;
        throw new InputProblem(
                "closed is " + closed.stream().map(Workshop::words).collect(Collectors.joining(", "))
                        + "; open it first: access open "
                        + closed.get(0).id());
    }

    /** The plug that a point is on; points elsewhere are reached through the plug named with them. */
    private Optional<PlaceId> place(String point) {
        String owner = Names.connectorOf(point);
        return circuit.connectors().containsKey(owner)
                ? Optional.of(new PlaceId(PlaceId.Kind.CONNECTOR, owner))
                : Optional.empty();
    }

    private static String words(AccessStep s) {
        return s.id() + " (" + s.label() + ", " + Math.round(s.minutes()) + " minutes)";
    }

    private Test reachable(Run run, Fact fact) {
        Test test = CaseIntake.tested(circuit, fact)
                .map(Evidence.Tested::test)
                .orElseThrow(() -> new InputProblem("unplug one connector to watch codes, not several or none"));
        reachable(run, prices.facts(test).places());
        return test;
    }

    private Fact measure(Run run, Request.Measure m, int line) {
        // the same reading in volts: whether ohms do harm there is for the engine to show, not to be refused
        Shown volt = new Shown.Number(java.math.BigDecimal.ZERO, Shown.Unit.VOLT);
        admitted(new Fact.Reading(Fact.Test.VOLTS, m.a(), m.b(), volt, m.setup(), m.meter()));
        Fact.Reading asked = new Fact.Reading(m.test(), m.a(), m.b(), new Shown.OverRange(), m.setup(), m.meter());
        if (m.test() == Fact.Test.DROP && !m.setup().powered())
            throw new InputProblem("a drop is read while current flows; name an operating point");
        Test.Numeric test = (Test.Numeric) reachable(run, asked);
        boolean zeroed = m.meter().leadZeroOhms().isPresent();
        Outcome outcome = engine.number(test, run.faults(), line, zeroed);
        if (m.test().quantity() == Shown.Quantity.OHMS && m.setup().powered()) outcome = new Outcome.OverRange();
        return new Fact.Reading(
                m.test(), m.a(), m.b(), Display.of(outcome, m.test() == Fact.Test.DROP), m.setup(), m.meter());
    }

    private Fact watch(Run run, Request.Watch w, int line) {
        Fact.Watched asked = new Fact.Watched(w.method(), w.setup(), List.of());
        admitted(asked);
        if (w.setup().unplugged().size() != 1)
            throw new InputProblem("unplug one connector to watch codes; given are "
                    + w.setup().unplugged().size());
        reachable(
                run,
                List.of(new PlaceId(
                        PlaceId.Kind.CONNECTOR, w.setup().unplugged().get(0))));
        Setup setup = CaseIntake.setup(circuit, w.setup());
        List<Code> active = engine.active(setup, run.faults(), line);
        return new Fact.Watched(w.method(), w.setup(), active);
    }

    private Fact move(Run run, Request.Move m, int line) {
        Fact.Moved asked = new Fact.Moved(m.action(), m.spot(), false, "", m.setup());
        admitted(asked);
        if (!m.setup().powered())
            throw new InputProblem("nothing can be watched with the key off; name an operating point");
        Test.Wiggle test = (Test.Wiggle) reachable(run, asked);
        boolean responds = engine.responds(test, run.faults(), m.action(), line);
        return new Fact.Moved(m.action(), m.spot(), responds, responds ? "a code comes and goes" : "", m.setup());
    }

    private Fact look(Run run, Request.Look l) {
        Fact.Seen clean = new Fact.Seen(l.spot(), Finding.CLEAN, "");
        admitted(clean);
        Test.Look test = (Test.Look) reachable(run, clean);
        return new Fact.Seen(l.spot(), engine.finding(test, run.faults()), "");
    }

    private Fact swap(Run run, Request.Swap s) {
        Fact.Swapped asked = new Fact.Swapped(s.part(), s.with(), Fact.Outcome.STAYED, "");
        admitted(asked);
        Test test = reachable(run, asked);
        boolean follows = engine.noticed(test, run.faults());
        return new Fact.Swapped(s.part(), s.with(), follows ? Fact.Outcome.FOLLOWED : Fact.Outcome.STAYED, "");
    }

    private Fact gauge(Run run, Request.Gauge g) {
        Fact asked = admitted(new Fact.Gauged(g.part(), Fact.Gauged.HEALTHY, ""));
        Test.Gauge test = (Test.Gauge) reachable(run, asked);
        Outcome.Condition there = engine.condition(test, run.faults());
        return there.equals(Outcome.Condition.HEALTHY) ? asked : new Fact.Gauged(g.part(), there.id(), "");
    }

    private Fact way(Run run, Request.Way w) {
        if (!w.open()) {
            if (!run.open().contains(w.step())) throw new InputProblem("access step '" + w.step() + "' is not open");
            return admitted(new Fact.ClosedAccess(w.step()));
        }
        Fact fact = admitted(new Fact.OpenedAccess(w.step()));
        if (run.open().contains(w.step())) throw new InputProblem("access step '" + w.step() + "' is open already");
        List<AccessStep> missing = check.missingBefore(w.step(), run.open());
        if (!missing.isEmpty())
            throw new InputProblem("before " + w.step() + " comes "
                    + missing.stream().map(Workshop::words).collect(Collectors.joining(", ")));
        return fact;
    }

    private Fact read(Run run, Request.Read r, int line) {
        List<String> points = r.points().isEmpty() ? drill.first().operatingPoints() : r.points();
        admitted(new Fact.Codes(List.of(), points, Optional.empty(), Optional.empty()));
        List<Fact.ReadCode> codes = engine.read(points, run.memory(), run.faults(), line);
        boolean lit = codes.stream().anyMatch(c -> c.state() == Fact.State.ACTIVE);
        Lamps lamps = new Lamps(Lamp.OFF, lit ? Lamp.ON : Lamp.OFF, Lamp.OFF, Lamp.OFF);
        return new Fact.Codes(codes, points, Optional.empty(), Optional.of(lamps));
    }

    private Fact work(Run run, Request.Work w) {
        Fact fact = admitted(new Fact.Work(w.deed(), w.spot(), ""));
        w.spot().ifPresent(s -> reachable(run, List.of(s.place())));
        return fact;
    }

    private Fact hint(Run run) {
        if (run.hints() >= Hints.MOST) throw new InputProblem("there are no more hints than " + Hints.MOST);
        Planted about = engine.planted().stream()
                .filter(p -> run.faults().stream().anyMatch(f -> f.id().equals(p.id())))
                .findFirst()
                .orElseThrow(() -> new InputProblem("everything planted is mended; read the codes and claim"));
        return RunNote.hint(run.hints() + 1, Hints.text(circuit, about, run.hints() + 1));
    }

    private Fact claim(Request.Claim c) {
        List<PlaceId> places = new ArrayList<>();
        for (String text : c.places())
            places.add(
                    text.equals(Request.ENGINE)
                            ? new PlaceId(PlaceId.Kind.ENGINE, Request.ENGINE)
                            : check.names().spot(text).place());
        if (places.isEmpty()) throw new InputProblem("name the place, or two, or " + Request.ENGINE);
        if (places.size() > Truth.MOST_FAULTS)
            throw new InputProblem("a drill has one fault or two; named are " + places.size() + " places");
        return RunNote.claim(places);
    }

    /** The request that a line would have come from; empty for a line that no request gives. */
    Optional<Request> request(Fact fact) {
        if (fact instanceof Fact.Reading r)
            return Optional.of(new Request.Measure(r.test(), r.a(), r.b(), r.setup(), r.meter()));
        if (fact instanceof Fact.Watched w) return Optional.of(new Request.Watch(w.method(), w.setup()));
        if (fact instanceof Fact.Moved m) return Optional.of(new Request.Move(m.action(), m.spot(), m.setup()));
        if (fact instanceof Fact.Seen s) return Optional.of(new Request.Look(s.spot()));
        if (fact instanceof Fact.Swapped s) return Optional.of(new Request.Swap(s.part(), s.with()));
        if (fact instanceof Fact.Gauged g) return Optional.of(new Request.Gauge(g.part()));
        if (fact instanceof Fact.OpenedAccess o) return Optional.of(new Request.Way(o.step(), true));
        if (fact instanceof Fact.ClosedAccess o) return Optional.of(new Request.Way(o.step(), false));
        if (fact instanceof Fact.Codes c) return Optional.of(new Request.Read(c.operatingPoints()));
        if (fact instanceof Fact.Work w) return Optional.of(new Request.Work(w.deed(), w.spot()));
        if (RunNote.isHint(fact)) return Optional.of(new Request.Hint());
        return Optional.empty();
    }
}
