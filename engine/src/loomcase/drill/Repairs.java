package loomcase.drill;

import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import loomcase.faults.WorkDone;
import loomcase.journal.Fact;
import loomcase.model.Circuit;
import loomcase.model.Costs;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;

/**
 * What work at a place costs, and which faults it mends.
 *
 * <p>Minutes of a repair are judgement; parts are priced by the circuit file. A branch that is repaired is opened and costs
 * what is mended in it; one that is replaced, a new section. Repairing or replacing mends whatever is at
 * that place; a new plug mends its contacts, a new section what runs in its branch. Reseating, cleaning and rerouting mend
 * only the kinds of fault that they are the remedy for.
 */
final class Repairs {
    /** A loom's covering opened, its wires freed, closed and clipped again: {@code minutes.loom} of the repair costs. */
    private static final double LOOM_MINUTES = 20;

    /** A piece let into a wire of a loom that is open: {@code minutes.splice}. */
    private static final double PIECE_MINUTES = 10;

    private static final double SMALL_WORK_MINUTES = 5;
    private static final double CLEANING_MINUTES = 10;

    /** A gauge or thermometer put on, to see that the engine really is as its sensor says. */
    private static final double GAUGE_MINUTES = 15;

    private final Circuit circuit;
    private final Layout layout;

    Repairs(Circuit circuit, Layout layout) {
        this.circuit = circuit;
        this.layout = layout;
    }

    /**
     * Minutes and parts of the work, access not included.
     *
     * @param faults what is wrong with the engine when the work is done
     */
    Bill bill(Fact.Deed deed, PlaceId place, List<Planted> faults) {
        return switch (deed) {
            case RESEATED, REROUTED -> Bill.of(SMALL_WORK_MINUTES);
            case CLEANED -> Bill.of(CLEANING_MINUTES);
            case CLEARED_CODES -> Bill.of(0);
            case REPAIRED -> place.kind() == PlaceId.Kind.BRANCH ? loom(place, faults) : repair(place);
            case REPLACED -> repair(place);
        };
    }

    /** A branch opened and what is found in it mended piece by piece, or a new section where that costs less. */
    private Bill loom(PlaceId branch, List<Planted> faults) {
        Bill pieces = faults.stream()
                .filter(f -> mends(Fact.Deed.REPAIRED, branch, f))
                .flatMap(f -> broken(f).stream())
                .distinct()
                .map(p -> p.kind() == PlaceId.Kind.WIRE
                        ? new Bill(PIECE_MINUTES, repair(p).parts())
                        : repair(p))
                .reduce(Bill.of(LOOM_MINUTES), Bill::plus);
        Bill section = repair(branch);
        Costs costs = circuit.costs();
        return pieces.money(costs).compareTo(section.money(costs)) <= 0 ? pieces : section;
    }

    /** What must be mended one by one: of a branch each wire that was hit, all of them where it is cut through. */
    private List<PlaceId> broken(Planted fault) {
        PlaceId at = fault.place();
        if (at.kind() != PlaceId.Kind.BRANCH) return List.of(at);
        List<PlaceId> hit = fault.places().stream().filter(p -> !p.equals(at)).toList();
        if (!hit.isEmpty()) return hit;
        return layout.in(at.id()).stream()
                .map(w -> new PlaceId(PlaceId.Kind.WIRE, w.id()))
                .toList();
    }

    private Bill repair(PlaceId place) {
        Costs costs = circuit.costs();
        return switch (place.kind()) {
            case CAVITY -> new Bill(15, part("terminal"));
            case CONNECTOR -> new Bill(30, part("pigtail"));
            case SPLICE -> new Bill(20, part("splice").add(part("sealing")));
            case WIRE -> new Bill(30, part("splice").add(part("splice")));
            case GROUND -> Bill.of(15);
            case FUSE -> Bill.of(3);
            case DEVICE -> new Bill(15, costs.deviceParts().getOrDefault(place.id(), BigDecimal.ZERO));
            case CONTROL_UNIT -> new Bill(45, costs.controlUnitPart());
            case BRANCH ->
                section(place.id())
                        .map(s -> new Bill(s.minutes(), s.part()))
                        .orElseGet(() -> new Bill(costs.harnessMinutes(), costs.harnessPart()));
            case ENGINE -> Bill.of(GAUGE_MINUTES);
        };
    }

    private BigDecimal part(String name) {
        return circuit.costs().repairParts().getOrDefault(name, BigDecimal.ZERO);
    }

    private Optional<Costs.Section> section(String branch) {
        return circuit.costs().sections().stream()
                .filter(s -> s.branches().contains(branch))
                .min(Comparator.comparing(Costs.Section::part).thenComparing(Costs.Section::id));
    }

    /** Whether the work takes a fault away. */
    boolean mends(Fact.Deed deed, PlaceId place, Planted fault) {
        boolean right =
                switch (deed) {
                    case REPAIRED, REPLACED, RESEATED, CLEANED ->
                        WorkDone.Deed.valueOf(deed.name()).madeFor(fault.family());
                    case REROUTED, CLEARED_CODES -> false;
                };
        return right && fault.place().kind() != PlaceId.Kind.ENGINE && covers(place, fault);
    }

    private boolean covers(PlaceId place, Planted fault) {
        PlaceId at = fault.place();
        if (fault.alike().contains(place)) return true;
        if (place.kind() == PlaceId.Kind.CONNECTOR)
            return at.kind() == PlaceId.Kind.CAVITY && sameplug(Names.connectorOf(at.id()), place.id())
                    || at.kind() == PlaceId.Kind.CONNECTOR && sameplug(at.id(), place.id());
        return place.kind() == PlaceId.Kind.BRANCH && inBranch(place.id(), at);
    }

    private boolean sameplug(String a, String b) {
        return a.equals(b) || circuit.connectors().get(a).mates().equals(b);
    }

    private boolean inBranch(String branch, PlaceId at) {
        if (at.kind() == PlaceId.Kind.SPLICE)
            return circuit.splices().get(at.id()).branch().equals(branch);
        return at.kind() == PlaceId.Kind.WIRE
                && layout.runs(at.id()).stream().anyMatch(r -> r.branch().equals(branch));
    }
}
