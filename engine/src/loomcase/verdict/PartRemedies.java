package loomcase.verdict;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import loomcase.model.Connector;
import loomcase.model.Costs;
import loomcase.model.Device;
import loomcase.model.Joints;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;

/** Remedies that replace a whole part, and leaving it alone: fuse, device, control unit, section, harness, monitor. */
final class PartRemedies {
    /** Common practice, no source: the engine is not taken apart on the word of one sensor. */
    private static final String SEE_FOR_YOURSELF =
            "; show first with a gauge, thermometer or dipstick of your own that it is so, for the sensor may report it"
                    + " falsely";

    private static final String SEEN = ", which was seen with an instrument of its own";
    private static final String CAUTION =
            " (fluids are hot and under pressure: the engine maker's instructions come first)";

    /** Of a battery: common practice, no source. */
    private static final String MEASURE_FIRST =
            "; show first with a voltmeter across its posts, at rest, under load and running, that it is so";

    private static final String MEASURED = ", which was read at its posts";
    private static final String BATTERY_CAUTION =
            " (battery acid and hydrogen: eye protection, no sparks; the engine maker's instructions come first)";

    private final Loom loom;
    private final List<Cause> causes;

    PartRemedies(Loom loom, List<Cause> causes) {
        this.loom = loom;
        this.causes = causes;
    }

    /** The part at a place, when it is one at the end of the harness. */
    List<Remedy> at(PlaceId place) {
        return switch (place.kind()) {
            case FUSE -> List.of(fuse(place));
            case DEVICE -> List.of(device(place));
            case CONTROL_UNIT -> List.of(controlUnit(place));
            default -> List.of();
        };
    }

    private Remedy fuse(PlaceId place) {
        Joints.Fuse f = loom.circuit.fuses().get(place.id());
        return part(
                "fuse",
                place,
                "fit a new fuse " + f.id() + " (" + f.label() + ") of " + Math.round(f.amperes())
                        + " A; find what blew it before power comes on",
                List.of(
                        new Remedy.Task("minutes.fuse", 1, false, "pull and fit"),
                        new Remedy.Task("minutes.locate", 1, false, "look for a short before power comes on")),
                new Remedy.Part("fuse", 1, loom.price("fuse"), false),
                "a fuse of the same rating, never larger");
    }

    private Remedy device(PlaceId place) {
        BigDecimal price = loom.circuit.costs().deviceParts().getOrDefault(place.id(), BigDecimal.ZERO);
        Device device = loom.circuit.devices().get(place.id());
        boolean battery = device.nature() instanceof Device.Battery;
        String name = device.label() + " (" + place.id() + ")";
        return part(
                "device",
                place,
                battery
                        ? "charge the " + name
                                + ", test it under load and fit a new one where it fails; find what emptied it"
                        : "fit a new " + name,
                List.of(new Remedy.Task("minutes.device", 1, false, "take off and fit")),
                new Remedy.Part(place.id(), 1, price, false),
                battery ? "size and cold cranking current as the maker says" : "part and seal as the maker says");
    }

    private Remedy controlUnit(PlaceId place) {
        return part(
                "control-unit",
                place,
                "fit a new " + loom.circuit.controlUnit().label() + " and load its data",
                List.of(new Remedy.Task("minutes.control-unit", 1, false, "take off, fit, load data")),
                new Remedy.Part("control unit", 1, loom.circuit.costs().controlUnitPart(), false),
                "data of this engine loaded; its plugs looked at first");
    }

    private Remedy part(
            String option, PlaceId place, String words, List<Remedy.Task> tasks, Remedy.Part part, String fit) {
        return new Remedy(
                option + " " + place.id(),
                option,
                place,
                words,
                tasks,
                List.of(part),
                loom.steps(List.of(place)),
                0,
                LocalRemedies.covering(causes, place::equals),
                List.of(),
                new Remedy.Detail(List.of(), List.of(fit), List.of(), List.of(), List.of(), List.of()));
    }

    /** Every section that can be bought and holds some of the posterior. */
    List<Remedy> sections() {
        List<Remedy> out = new ArrayList<>();
        for (Costs.Section s : loom.circuit.costs().sections()) {
            Map<String, Double> covers = new LinkedHashMap<>();
            for (Cause c : causes) {
                double share = share(c, s.branches());
                if (share > 0) covers.put(c.id(), share);
            }
            if (covers.isEmpty()) continue;
            PlaceId place = new PlaceId(PlaceId.Kind.BRANCH, s.branches().get(0));
            long wires = s.branches().stream()
                    .flatMap(b -> loom.layout.in(b).stream())
                    .distinct()
                    .count();
            out.add(new Remedy(
                    "branch-section " + s.id(),
                    "branch-section",
                    place,
                    "replace section " + s.id() + (s.branches().size() == 1 ? " (branch " : " (branches ")
                            + String.join(", ", s.branches()) + ")",
                    List.of(new Remedy.Task(
                            Remedy.Task.STATED, s.minutes(), false, "fit the section, access included")),
                    List.of(new Remedy.Part("section " + s.id(), 1, s.part(), false)),
                    List.of(),
                    0,
                    covers,
                    s.branches(),
                    new Remedy.Detail(
                            List.of("take out branches " + String.join(", ", s.branches())),
                            List.of("the section with its plugs; fit and cavity map checked before the old one is cut"),
                            List.of(),
                            List.of(),
                            List.of(wires + " wires run in it"),
                            List.of())));
        }
        return out;
    }

    /** The whole harness. */
    Remedy harness() {
        Costs costs = loom.circuit.costs();
        List<String> all = List.copyOf(loom.circuit.branches().keySet());
        Map<String, Double> covers = LocalRemedies.covering(causes, p -> switch (p.kind()) {
            case CAVITY, CONNECTOR, WIRE, SPLICE, BRANCH, GROUND -> true;
            case FUSE, DEVICE, CONTROL_UNIT, ENGINE -> false;
        });
        return new Remedy(
                "full-harness " + loom.circuit.id(),
                "full-harness",
                new PlaceId(PlaceId.Kind.BRANCH, all.get(0)),
                "replace the whole harness",
                List.of(new Remedy.Task(
                        Remedy.Task.STATED, costs.harnessMinutes(), false, "fit the harness, access included")),
                List.of(new Remedy.Part("harness", 1, costs.harnessPart(), false)),
                List.of(),
                0,
                covers,
                all,
                new Remedy.Detail(
                        List.of("take out the old harness, every plug and clip"),
                        List.of("the harness of this very build; fit and cavity map checked first"),
                        List.of(),
                        List.of(),
                        List.of("all " + loom.circuit.wires().size() + " wires and "
                                + loom.circuit.connectors().size() + " plugs"),
                        List.of()));
    }

    /** Leave it alone and watch. */
    Remedy monitor() {
        PlaceId place = causes.stream()
                .max(Comparator.comparingDouble(Cause::probability))
                .flatMap(Cause::place)
                .orElse(new PlaceId(PlaceId.Kind.ENGINE, "none"));
        Map<String, Double> covers = LocalRemedies.coveringWhere(
                causes, c -> c.group().equals("none") || c.comesAndGoes() && !c.isPair(), c -> p -> true);
        String words = causes.stream()
                .filter(Cause::isCondition)
                .findFirst()
                .map(c -> "leave the wiring alone and " + seeTo(c) + "; then clear the codes and watch")
                .orElse("leave the wiring alone, clear the codes and watch");
        return new Remedy(
                "monitor",
                "monitor",
                place,
                words,
                List.of(),
                List.of(),
                List.of(),
                0,
                covers,
                List.of(),
                Remedy.Detail.NONE);
    }

    /** What is done about a condition of the engine. */
    String seeTo(Cause condition) {
        boolean seen =
                condition.place().filter(loom.situation().gauged()::contains).isPresent();
        if (condition.place().filter(this::isOfBattery).isPresent())
            return "see to the battery and its charging: " + condition.words() + (seen ? MEASURED : MEASURE_FIRST)
                    + BATTERY_CAUTION;
        return "see to the engine: " + condition.words() + (seen ? SEEN : SEE_FOR_YOURSELF) + CAUTION;
    }

    private boolean isOfBattery(PlaceId condition) {
        return loom.circuit.batteries().stream()
                .anyMatch(d -> d.condition(condition.id()).isPresent());
    }

    /** Share of a cause that lies in some branches: whole branches and splices, wires by length, plugs by where wires go. */
    private double share(Cause cause, List<String> branches) {
        double sum = 0;
        for (Map.Entry<PlaceId, Double> e : cause.places().entrySet())
            sum += e.getValue() * inside(e.getKey(), branches).orElse(0);
        return sum;
    }

    private OptionalDouble inside(PlaceId p, List<String> branches) {
        return switch (p.kind()) {
            case BRANCH -> yes(branches.contains(p.id()));
            case SPLICE ->
                yes(branches.contains(loom.circuit.splices().get(p.id()).branch()));
            case CAVITY -> yes(cavityInside(p.id(), branches));
            case CONNECTOR -> {
                List<String> used = loom.used(p.id());
                yield used.isEmpty()
                        ? yes(meets(loom.circuit.connectors().get(p.id()), branches))
                        : OptionalDouble.of((double) used.stream()
                                        .filter(c -> cavityInside(c, branches))
                                        .count()
                                / used.size());
            }
            case WIRE -> {
                List<Layout.Run> runs = loom.layout.runs(p.id());
                double all = runs.stream().mapToDouble(Layout.Run::metres).sum();
                double in = runs.stream()
                        .filter(r -> branches.contains(r.branch()))
                        .mapToDouble(Layout.Run::metres)
                        .sum();
                yield all == 0 ? OptionalDouble.empty() : OptionalDouble.of(in / all);
            }
            case GROUND, FUSE, DEVICE, CONTROL_UNIT, ENGINE -> OptionalDouble.empty();
        };
    }

    private boolean cavityInside(String cavity, List<String> branches) {
        Connector plug = loom.circuit.connectors().get(Names.connectorOf(cavity));
        return meets(plug, branches)
                && loom.at(cavity).stream().allMatch(w -> loom.branchFrom(w, cavity)
                        .map(branches::contains)
                        .orElse(false));
    }

    private boolean meets(Connector plug, List<String> branches) {
        return loom.meetingAt(plug.at()).stream().anyMatch(branches::contains);
    }

    private static OptionalDouble yes(boolean inside) {
        return inside ? OptionalDouble.of(1) : OptionalDouble.empty();
    }
}
