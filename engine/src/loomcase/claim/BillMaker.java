package loomcase.claim;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.casework.OpenCase;
import loomcase.intake.CaseIntake;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import loomcase.journal.Standing;
import loomcase.meter.Catalogue;
import loomcase.model.Access;
import loomcase.model.Circuit;
import loomcase.model.Costs;
import loomcase.model.PlaceId;
import loomcase.print.Phrase;
import loomcase.print.Wording;
import loomcase.rank.Evidence;

/**
 * Labour and parts of a claim.
 *
 * <p>Labour: the tests before the repair and after it, by the minutes of the list of tests, one recorded again with nothing
 * changed in between ({@link Repeats}) once; every access step that was
 * opened, once however often; each piece of work by the minutes that were clocked, or, for a ready-made section or the whole
 * harness, by the circuit file's minutes. Those hold their access, so the steps they need are listed with no minutes of
 * their own.
 */
final class BillMaker {
    private static final BigDecimal HOUR = BigDecimal.valueOf(60);

    private final OpenCase open;
    private final Circuit circuit;
    private final Costs costs;
    private final Timeline time;
    private final Wording words;
    private final FactWords facts;
    private final Optional<ClaimFact.Chose> chose;

    BillMaker(OpenCase open, Timeline time, Wording words, FactWords facts, Optional<ClaimFact.Chose> chose) {
        this.open = open;
        this.circuit = open.circuit();
        this.costs = circuit.costs();
        this.time = time;
        this.words = words;
        this.facts = facts;
        this.chose = chose;
    }

    Packet.Bill bill() {
        List<Packet.LabourLine> labour = new ArrayList<>();
        tests("diagnosis", Packet.Stage.BEFORE).ifPresent(labour::add);
        labour.addAll(access());
        labour.addAll(repairs());
        tests("proof", Packet.Stage.AFTER).ifPresent(labour::add);
        List<Packet.PartLine> parts = parts();
        return new Packet.Bill(
                labour,
                parts,
                costs.labourPerHour(),
                labour.stream().map(Packet.LabourLine::amount).reduce(Figures.money(BigDecimal.ZERO), BigDecimal::add),
                parts.stream()
                        .flatMap(p -> p.amount().stream())
                        .reduce(Figures.money(BigDecimal.ZERO), BigDecimal::add),
                costs.currency(),
                (int) parts.stream().filter(p -> p.amount().isEmpty()).count());
    }

    private Optional<Packet.LabourLine> tests(String kind, Packet.Stage stage) {
        Catalogue catalogue = new Catalogue(circuit, open.bench().layout());
        double minutes = 0;
        List<Integer> lines = new ArrayList<>();
        int again = 0;
        Repeats repeats = new Repeats();
        for (Standing s : time.lines()) {
            var tested = CaseIntake.tested(circuit, s.fact());
            boolean repeated = repeats.takes(s.fact(), tested.map(Evidence.Tested::test));
            if (time.stage(s.n()) != stage || tested.isEmpty()) continue;
            lines.add(s.n());
            if (repeated) again++;
            else minutes += catalogue.facts(tested.get().test()).minutes();
        }
        if (lines.isEmpty()) return Optional.empty();
        String said = words.say("labour." + kind, lines.size() - again);
        if (again > 0) said += " " + words.say("labour.again", again);
        return Optional.of(line(kind, "", Phrase.of(said).from(lines), minutes, false, true));
    }

    private List<Packet.LabourLine> access() {
        Set<String> held = heldAccess();
        List<Packet.LabourLine> out = new ArrayList<>();
        time.access((step, opened, closed) -> {
            double minutes =
                    held.contains(step) ? 0 : circuit.access().get(step).minutes();
            String said = words.say(held.contains(step) ? "labour.access-held" : "labour.access", facts.step(step));
            out.add(line("access", step, Phrase.of(said).from(opened), minutes, false, true));
        });
        return out;
    }

    /** Steps whose minutes the circuit file's minutes of a section or harness hold. */
    private Set<String> heldAccess() {
        if (stated().isEmpty()) return Set.of();
        if (chose.orElseThrow().option() == ClaimFact.Option.FULL_HARNESS)
            return circuit.access().keySet();
        Set<String> out = new LinkedHashSet<>();
        section()
                .orElseThrow()
                .branches()
                .forEach(b -> out.addAll(new Access(circuit).steps(new PlaceId(PlaceId.Kind.BRANCH, b))));
        return out;
    }

    /** The ready-made section around the place that failed, the cheapest of several. */
    private Optional<Costs.Section> section() {
        return chose.flatMap(c -> branch(c.spot().place())).flatMap(b -> costs.sections().stream()
                .filter(s -> s.branches().contains(b))
                .min(java.util.Comparator.comparing(Costs.Section::part)));
    }

    private Optional<String> branch(PlaceId place) {
        return switch (place.kind()) {
            case BRANCH -> Optional.of(place.id());
            case SPLICE -> Optional.of(circuit.splices().get(place.id()).branch());
            case WIRE ->
                open.bench().layout().runs(place.id()).stream()
                        .map(r -> r.branch())
                        .findFirst();
            default -> Optional.empty();
        };
    }

    /** Minutes that the circuit file states for what was chosen. */
    private OptionalDouble stated() {
        if (chose.isEmpty()) return OptionalDouble.empty();
        if (chose.get().option() == ClaimFact.Option.FULL_HARNESS) return OptionalDouble.of(costs.harnessMinutes());
        if (chose.get().option() != ClaimFact.Option.BRANCH_SECTION || section().isEmpty())
            return OptionalDouble.empty();
        return OptionalDouble.of(section().get().minutes());
    }

    /** The first piece of work that replaced something carries the stated minutes; the rest carry their own. */
    private List<Packet.LabourLine> repairs() {
        List<Packet.LabourLine> out = new ArrayList<>();
        boolean used = stated().isEmpty();
        for (Timeline.At<Fact.Work> w : time.repairs()) {
            boolean set = !used && w.fact().deed() == Fact.Deed.REPLACED;
            used |= set;
            OptionalDouble minutes = set ? stated() : w.fact().minutes();
            if (minutes.isEmpty()) continue;
            boolean explained = set || !w.fact().note().isBlank();
            Phrase said = Phrase.of(facts.work(new Fact.Work(
                            w.fact().deed(), w.fact().spot(), w.fact().note())))
                    .from(w.line());
            out.add(line("repair", "", said, minutes.getAsDouble(), !set, explained));
        }
        return out;
    }

    private Packet.LabourLine line(
            String kind, String step, Phrase said, double minutes, boolean straight, boolean explained) {
        BigDecimal m = BigDecimal.valueOf(minutes);
        BigDecimal amount = m.multiply(costs.labourPerHour()).divide(HOUR, 2, RoundingMode.HALF_UP);
        return new Packet.LabourLine(kind, step, said, m, amount, straight, explained);
    }

    private List<Packet.PartLine> parts() {
        List<Timeline.At<ClaimFact.Kept>> kept = time.all(ClaimFact.Kept.class);
        List<Packet.PartLine> out = new ArrayList<>();
        for (Timeline.At<ClaimFact.Part> at : time.all(ClaimFact.Part.class)) {
            ClaimFact.Part part = at.fact();
            Optional<BigDecimal> listed = part.price().isPresent() ? Optional.empty() : listed(part);
            Optional<BigDecimal> each = part.price().or(() -> listed);
            out.add(new Packet.PartLine(
                    at.line(),
                    part,
                    each,
                    each.map(e -> Figures.money(e.multiply(part.quantity()))),
                    listed.isPresent(),
                    kept.stream()
                            .filter(k -> same(k.fact().part(), part.name()))
                            .map(k -> k.fact().tag())
                            .findFirst()));
        }
        return out;
    }

    /** Price in the circuit file: a device by its id, a section around the place, the harness, the control unit. */
    private Optional<BigDecimal> listed(ClaimFact.Part part) {
        return switch (part.sort()) {
            case DEVICE ->
                part.spot().map(s -> costs.deviceParts().get(s.place().id()));
            case SECTION -> section().map(Costs.Section::part);
            case HARNESS -> Optional.of(costs.harnessPart());
            case CONTROL_UNIT -> Optional.of(costs.controlUnitPart());
            case TERMINAL -> Optional.ofNullable(costs.repairParts().get("terminal"));
            default -> Optional.empty();
        };
    }

    private static boolean same(String a, String b) {
        return a.strip().toLowerCase(Locale.ROOT).equals(b.strip().toLowerCase(Locale.ROOT));
    }
}
