package loomcase.fit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.IntStream;
import loomcase.faults.TerminalSlips;
import loomcase.model.Circuit;
import loomcase.model.Copper;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.OperatingPoint;
import loomcase.model.Wire;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;

/**
 * What each single slip with the terminals of a plug would lead to, from the old circuit's own network: it is the engine and
 * control unit that stay. Looked at with the key on and at the first operating point that runs the engine.
 *
 * <p>A code counts from an even chance on. Cost: one low-rank solve for each slip, operating point and phase, twice. Not
 * thread-safe.
 */
public final class Slips {
    /** Probability that a code whose condition holds does not appear; a slip is judged by the conditions. */
    private static final double MISSED = 0.05;

    private static final double SHOWN = 0.5;

    private final Circuit circuit;
    private final Copper copper;
    private final NetworkSolver solver;
    private final Predictor predictor;
    private final DamageRules damage;
    private final Checks checks;
    private final List<NetworkSolver.Instant> instants = new ArrayList<>();
    private final Set<String> wired = new LinkedHashSet<>();
    private final List<String> points;

    public Slips(FitResult fit, PolicyOutcome policy) {
        this.circuit = fit.old();
        this.copper = Copper.of(circuit);
        this.solver = new NetworkSolver(circuit, new Layout(circuit));
        this.damage = new DamageRules(circuit);
        this.checks = new Checks(fit, solver);
        List<OperatingPoint> chosen = new ArrayList<>();
        circuit.firstPoint(false).ifPresent(chosen::add);
        circuit.firstPoint(true).ifPresent(chosen::add);
        this.points = chosen.stream().map(OperatingPoint::id).toList();
        this.predictor =
                new Predictor(circuit, solver, new CodeTable(circuit.watches(), policy, List.of(), MISSED), points);
        for (OperatingPoint op : chosen) op.phases().forEach(phase -> instants.add(solver.at(op.id(), phase.id())));
        for (Wire w : circuit.wires().values()) wired.addAll(List.of(w.from(), w.to()));
    }

    /** Operating points looked at. */
    public List<String> operatingPoints() {
        return points;
    }

    /** Every slip of a transfer: each pair of handled terminals swapped, each left out, each not seated. */
    public List<Slip> of(Transfer transfer) {
        List<String> handled =
                transfer.handled().stream().map(c -> transfer.plug() + "/" + c).toList();
        List<Draft> drafts = new ArrayList<>();
        for (int i = 0; i < handled.size(); i++)
            for (int j = i + 1; j < handled.size(); j++) drafts.add(swap(handled.get(i), handled.get(j)));
        for (Slip.Kind kind : List.of(Slip.Kind.LEFT_OUT, Slip.Kind.NOT_SEATED))
            for (String c : handled)
                drafts.add(new Draft(kind, c, Optional.empty(), List.of(TerminalSlips.open(c)), false));
        return judge(drafts);
    }

    /** Every single swap of two cavities of a plug, empty ones included: n·(n − 1)/2 for n cavities. */
    public List<Slip> swaps(String plug) {
        List<String> all = circuit.connectors().get(plug).rows().stream()
                .flatMap(List::stream)
                .map(c -> plug + "/" + c)
                .toList();
        List<Draft> drafts = new ArrayList<>();
        for (int i = 0; i < all.size(); i++)
            for (int j = i + 1; j < all.size(); j++) drafts.add(swap(all.get(i), all.get(j)));
        return judge(drafts);
    }

    /** The check of a cavity of the old plug; empty where its circuit ends at nothing that a lead can touch. */
    public Optional<Slip.Check> check(String cavity) {
        return checks.of(cavity);
    }

    private record Draft(Slip.Kind kind, String cavity, Optional<String> other, List<Edit> edits, boolean none) {}

    private Draft swap(String a, String b) {
        boolean neither = !wired.contains(a) && !wired.contains(b);
        boolean none = neither || wired.contains(a) && wired.contains(b) && checks.same(a, b);
        return new Draft(
                Slip.Kind.SWAPPED, a, Optional.of(b), none ? List.of() : TerminalSlips.swapped(circuit, a, b), none);
    }

    private List<Slip> judge(List<Draft> drafts) {
        List<List<Edit>> edits = drafts.stream()
                .filter(d -> !d.none)
                .map(Draft::edits)
                .distinct()
                .toList();
        predictor.sweep(edits);
        Map<List<Edit>, Harm> harmed = harmed(edits);
        List<Slip> out = new ArrayList<>();
        for (Draft d : drafts) out.add(slip(d, harmed));
        checks.forget();
        return out;
    }

    /** What may be damaged at any instant, and whether the control unit is without supply at every one. */
    private record Harm(Map<String, String> damage, boolean unitDead) {
        Harm with(Harm other) {
            Map<String, String> both = new LinkedHashMap<>(damage);
            other.damage.forEach(both::putIfAbsent);
            return new Harm(both, unitDead && other.unitDead);
        }
    }

    /** Damage of each slip at every instant; instants run on all cores, since each has its own solver. */
    private Map<List<Edit>, Harm> harmed(List<List<Edit>> all) {
        List<List<Harm>> byInstant = new ArrayList<>();
        IntStream.range(0, instants.size()).forEach(i -> byInstant.add(List.of()));
        IntStream.range(0, instants.size()).parallel().forEach(i -> byInstant.set(i, harmed(instants.get(i), all)));
        Map<List<Edit>, Harm> out = new LinkedHashMap<>();
        for (int e = 0; e < all.size(); e++) {
            Harm whole = new Harm(Map.of(), true);
            for (List<Harm> there : byInstant) whole = whole.with(there.get(e));
            out.put(all.get(e), whole);
        }
        return out;
    }

    private List<Harm> harmed(NetworkSolver.Instant instant, List<List<Edit>> all) {
        Solution whole = instant.healthy();
        Map<String, Double> amperes = damage.amperes(whole);
        Set<String> healthy = damage.at(instant, whole, amperes).keySet();
        List<Harm> out = new ArrayList<>();
        for (List<Edit> edits : all) {
            Solution s = instant.solve(edits);
            Map<String, String> here = s.settled() ? damage.at(instant, s, amperes) : new LinkedHashMap<>();
            here.keySet().removeAll(healthy);
            out.add(new Harm(here, damage.unitDead(s)));
        }
        instant.forgetBeyond(0);
        return out;
    }

    private Slip slip(Draft d, Map<List<Edit>, Harm> harmed) {
        if (d.none)
            return new Slip(
                    d.kind,
                    d.cavity,
                    d.other,
                    Slip.Effect.NONE,
                    List.of(),
                    List.of(),
                    true,
                    Optional.empty(),
                    OptionalDouble.empty());
        Prediction p = predictor.predict(d.edits);
        List<Slip.Shown> codes = codes(p);
        Harm here = harmed.get(d.edits);
        List<String> harm = new ArrayList<>(here.damage().values());
        d.other.ifPresent(o -> harm.addAll(damage.boosted(d.cavity, o, copper)));
        Caught caught = caught(d);
        return new Slip(
                d.kind,
                d.cavity,
                d.other,
                !codes.isEmpty() ? Slip.Effect.CODES : here.unitDead() ? Slip.Effect.UNIT_DEAD : Slip.Effect.SILENT,
                codes,
                harm,
                p.settled(),
                caught.check,
                caught.ohms);
    }

    private List<Slip.Shown> codes(Prediction p) {
        double[] healthy = predictor.healthy();
        List<Slip.Shown> out = new ArrayList<>();
        for (int k = 0; k < p.codes().length; k++)
            if (p.probability()[k] >= SHOWN && healthy[p.codes()[k]] < SHOWN)
                out.add(new Slip.Shown(predictor.table().codes().get(p.codes()[k]), p.probability()[k]));
        out.sort(Comparator.comparingDouble((Slip.Shown s) -> -s.probability()).thenComparing(Slip.Shown::code));
        return out;
    }

    private record Caught(Optional<Slip.Check> check, OptionalDouble ohms) {}

    /** The check whose reading under the slip is beyond its limit. */
    private Caught caught(Draft d) {
        List<String> ends = new ArrayList<>(List.of(d.cavity));
        d.other.ifPresent(ends::add);
        for (String here : ends) {
            if (!wired.contains(here)) continue;
            Optional<Slip.Check> check = checks.of(here);
            if (check.isEmpty()) continue;
            String sits = here.equals(d.cavity) ? d.other.orElse("") : d.cavity;
            double ohms = wired.contains(sits) ? checks.reading(check.get(), sits) : Double.POSITIVE_INFINITY;
            if (ohms > check.get().limitOhms()) return new Caught(check, OptionalDouble.of(ohms));
        }
        return new Caught(Optional.empty(), OptionalDouble.empty());
    }
}
