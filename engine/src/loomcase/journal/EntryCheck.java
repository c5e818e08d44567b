package loomcase.journal;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import loomcase.model.AccessStep;
import loomcase.model.Circuit;
import loomcase.model.Device;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.model.PlaceId;

/**
 * Whether a fact can be true of a circuit: names that exist, unit right for the test, physical range, no harm.
 *
 * <p>Knows the model alone; whether a value is likely under some fault is for later stages. A fact is refused for the first
 * thing wrong with it, in the order of its fields.
 */
public final class EntryCheck {
    private final Circuit circuit;
    private final CircuitNames names;
    private final ReadingCheck readings;

    public EntryCheck(Circuit circuit) {
        this.circuit = circuit;
        this.names = new CircuitNames(circuit);
        this.readings = new ReadingCheck(circuit);
    }

    /** The names of the circuit, for turning typed text into places. */
    public CircuitNames names() {
        return names;
    }

    /** Whether a fact may be recorded. */
    public Admission admit(Fact fact) {
        Optional<String> refused = wrong(fact);
        if (refused.isPresent()) return new Admission.Refused(refused.get());
        Optional<String> odd = odd(fact);
        return odd.isPresent() ? new Admission.NeedsConfirmation(odd.get()) : new Admission.Accepted();
    }

    /** The stamp of a fact that somebody, or the engine of a drill, stands for: with what is odd about it, if anything. */
    public Entry.Stamp confirming(Fact fact, Entry.Stamp stamp) {
        return new Entry.Stamp(stamp.at(), stamp.by(), odd(fact));
    }

    private Optional<String> odd(Fact fact) {
        if (fact instanceof Fact.Correction c) return odd(c.replacement());
        return fact instanceof Fact.Reading r ? readings.odd(r) : Optional.empty();
    }

    private Optional<String> wrong(Fact fact) {
        if (fact instanceof Fact.Opened f) return id(f);
        if (fact instanceof Fact.Codes f) return first(f.operatingPoints(), this::operatingPoint);
        if (fact instanceof Fact.Reading f) return reading(f);
        if (fact instanceof Fact.Watched f) return setup(f.setup());
        if (fact instanceof Fact.Moved f) return names.place(f.spot()).or(() -> setup(f.setup()));
        if (fact instanceof Fact.Seen f) return names.place(f.spot());
        if (fact instanceof Fact.Swapped f)
            return names.place(f.part()).or(() -> names.place(f.with())).or(() -> swap(f));
        if (fact instanceof Fact.Gauged f) return names.place(f.part()).or(() -> condition(f));
        if (fact instanceof Fact.OpenedAccess f) return step(f.step());
        if (fact instanceof Fact.ClosedAccess f) return step(f.step());
        if (fact instanceof Fact.Work f) return f.spot().flatMap(names::place);
        if (fact instanceof Fact.Correction f) return wrong(f.replacement());
        if (fact instanceof ClaimFact.Photo f) return f.spot().flatMap(names::place);
        if (fact instanceof ClaimFact.Part f) return f.spot().flatMap(names::place);
        if (fact instanceof ClaimFact.Chose f)
            return names.place(f.spot())
                    .or(() -> f.also().flatMap(a -> names.place(a.spot())))
                    .or(() -> second(f));
        if (fact instanceof Fact.Refused
                || fact instanceof Fact.Note
                || fact instanceof ClaimFact.Kept
                || fact instanceof ClaimFact.Approved) return Optional.empty();
        throw new IllegalStateException("no check for a fact of kind " + fact.kind());
    }

    private static Optional<String> second(ClaimFact.Chose f) {
        return f.also()
                .filter(a -> a.option() == f.option() && a.spot().equals(f.spot()))
                .map(a -> "the second repair is the first once more, at " + a.spot()
                        + "; allowed is another place or option, or one repair alone");
    }

    private Optional<String> swap(Fact.Swapped f) {
        for (Spot spot : List.of(f.part(), f.with()))
            if (spot.place().kind() != PlaceId.Kind.DEVICE)
                return Optional.of(spot + " is no part that can be swapped; name two devices");
        Device a = circuit.devices().get(f.part().place().id());
        Device b = circuit.devices().get(f.with().place().id());
        String one = a.nature().word();
        String other = b.nature().word();
        return one.equals(other)
                ? Optional.empty()
                : Optional.of(a.id() + " is a " + one + " and " + b.id() + " a " + other
                        + "; only like parts can be swapped");
    }

    private Optional<String> condition(Fact.Gauged f) {
        Device device = f.part().place().kind() == PlaceId.Kind.DEVICE
                ? circuit.devices().get(f.part().place().id())
                : null;
        if (device != null && device.nature() instanceof Device.Battery)
            return Optional.of("a battery is read with a meter, not gauged: record a reading in volts from "
                    + device.terminals().get("positive") + " to " + Names.CHASSIS);
        if (device == null || !device.isGauged())
            return Optional.of(f.part() + " reports no condition of the engine; allowed are device:"
                    + circuit.devices().values().stream()
                            .filter(Device::isGauged)
                            .map(Device::id)
                            .collect(Collectors.joining(", device:")));
        List<String> allowed = new ArrayList<>(List.of(Fact.Gauged.HEALTHY));
        device.conditions().forEach(c -> allowed.add(c.id()));
        return allowed.contains(f.condition())
                ? Optional.empty()
                : Optional.of("condition '" + f.condition() + "' is not one of " + String.join(", ", allowed)
                        + ", which " + f.part() + " reports");
    }

    private Optional<String> id(Fact.Opened opened) {
        return opened.circuit().id().equals(circuit.id())
                ? Optional.empty()
                : Optional.of("circuit id '" + opened.circuit().id() + "' is not that of the file, which is '"
                        + circuit.id() + "'");
    }

    private Optional<String> reading(Fact.Reading r) {
        return names.point(r.a())
                .or(() -> names.point(r.b()))
                .or(() -> r.a().equals(r.b())
                        ? Optional.of("both leads are on " + r.a() + "; a reading needs two points")
                        : Optional.empty())
                .or(() -> setup(r.setup()))
                .or(() -> readings.wrong(r));
    }

    private Optional<String> setup(Setup setup) {
        List<String> points = new ArrayList<>();
        for (Jumper j : setup.jumpers()) points.addAll(List.of(j.from(), j.to()));
        return setup.operatingPoint()
                .flatMap(this::operatingPoint)
                .or(() ->
                        setup.phase().flatMap(p -> phase(setup.operatingPoint().orElseThrow(), p)))
                .or(() -> first(
                        setup.unplugged(),
                        u -> names.known("connector", u, circuit.connectors().keySet())))
                .or(() -> first(points, names::point).map(p -> "jumper: " + p));
    }

    private Optional<String> operatingPoint(String id) {
        return names.known("operating point", id, circuit.operatingPoints().keySet());
    }

    private Optional<String> phase(String operatingPoint, String phase) {
        OperatingPoint op = circuit.operatingPoints().get(operatingPoint);
        return names.known(
                "phase of operating point " + op.id(),
                phase,
                op.phases().stream().map(OperatingPoint.Phase::id).toList());
    }

    private Optional<String> step(String id) {
        return names.known("access step", id, circuit.access().keySet());
    }

    private static Optional<String> first(
            List<String> items, java.util.function.Function<String, Optional<String>> wrong) {
        return items.stream().map(wrong).flatMap(Optional::stream).findFirst();
    }

    /** Steps that must be open before this one and are not, in the order in which to open them. */
    public List<AccessStep> missingBefore(String step, Set<String> open) {
        List<AccessStep> out = new ArrayList<>();
        AccessStep wanted = circuit.access().get(step);
        if (wanted != null) collect(wanted, open, new HashSet<>(Set.of(step)), out);
        return out;
    }

    private void collect(AccessStep step, Set<String> open, Set<String> seen, List<AccessStep> out) {
        for (String need : step.needs()) {
            if (open.contains(need) || !seen.add(need)) continue;
            collect(circuit.access().get(need), open, seen, out);
            out.add(circuit.access().get(need));
        }
    }
}
