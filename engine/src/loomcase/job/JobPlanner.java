package loomcase.job;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.model.Access;
import loomcase.model.AccessStep;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Costs;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Plugs;
import loomcase.policy.PolicyOutcome;

/** Entry of this stage: makes the sheet of a job. Cost: linear in places and steps, but for the junctions' order. */
public final class JobPlanner {
    private static final String POWER_DOWN =
            "Key off, wait until the control unit has powered down, isolate the battery";
    private static final String BATTERY =
            "Battery: no metal across the terminals, no sparks near it, negative off first and on last.";
    private static final String MAKER = "Follow the engine maker's instructions and local codes where they say more.";

    private final Circuit circuit;
    private final Layout layout;
    private final PolicyOutcome policy;

    /** @param policy what the rules conclude for the circuit; its cautions stand beside the tasks */
    public JobPlanner(Circuit circuit, Layout layout, PolicyOutcome policy) {
        this.circuit = circuit;
        this.layout = layout;
        this.policy = policy;
    }

    /**
     * The sheet.
     *
     * @param open ids of access steps already open
     * @throws InputProblem when the circuit has no such section or place
     */
    public JobSheet plan(Work work, Collection<String> open) {
        Set<String> branches = branches(work);
        Route route = new Route(circuit, branches);
        List<Connector> plugs = plugs(work, route, branches);
        List<String> steps = ordered(needed(places(work, branches, plugs)));
        // What was opened for another reason is closed with the rest.
        Set<String> both = new LinkedHashSet<>(steps);
        open.stream().filter(circuit.access()::containsKey).forEach(both::add);
        List<Task> opening = new ArrayList<>();
        opening.add(Task.of(POWER_DOWN, List.of(BATTERY, MAKER)));
        List<String> already = new ArrayList<>();
        List<String> all = ordered(both);
        for (String id : all) {
            AccessStep s = circuit.access().get(id);
            if (open.contains(id)) already.add(s.label());
            else
                opening.add(new Task(
                        upper(s.label()),
                        OptionalDouble.of(s.minutes()),
                        s.tools(),
                        s.caution().isEmpty() ? List.of() : List.of(upper(s.caution()) + "."),
                        Optional.of(id)));
        }
        List<Connector> apart = new ArrayList<>(plugs);
        Collections.reverse(apart);
        return new JobSheet(
                work,
                already,
                opening,
                apart.stream().map(this::unplug).toList(),
                working(work, route, plugs),
                closing(all),
                new Access(circuit).minutes(steps, open));
    }

    private Set<String> needed(Collection<PlaceId> places) {
        Set<String> wanted = new LinkedHashSet<>();
        Access access = new Access(circuit);
        for (PlaceId p : places) wanted.addAll(access.steps(p));
        return wanted;
    }

    /** Steps with all they need, each once, every step after those it needs; ties in file order. */
    private List<String> ordered(Set<String> wanted) {
        Set<String> out = new LinkedHashSet<>();
        for (String id : circuit.access().keySet()) if (wanted.contains(id)) after(id, out);
        return List.copyOf(out);
    }

    private void after(String id, Set<String> out) {
        if (out.contains(id)) return;
        circuit.access().get(id).needs().forEach(n -> after(n, out));
        out.add(id);
    }

    private Set<String> branches(Work work) {
        if (work instanceof Work.Harness) return circuit.branches().keySet();
        if (work instanceof Work.Section s)
            return new LinkedHashSet<>(circuit.costs().sections().stream()
                    .filter(x -> x.id().equals(s.id()))
                    .findFirst()
                    .map(Costs.Section::branches)
                    .orElseThrow(() -> new InputProblem("section " + s.id() + ": the circuit has "
                            + (circuit.costs().sections().isEmpty()
                                    ? "no section"
                                    : "sections "
                                            + String.join(
                                                    ", ",
                                                    circuit.costs().sections().stream()
                                                            .map(Costs.Section::id)
                                                            .toList())))));
        return Set.of();
    }

    private List<Connector> plugs(Work work, Route route, Set<String> branches) {
        if (work instanceof Work.Harness) return route.plugs(c -> true);
        if (!(work instanceof Work.Repair r)) return route.plugs(c -> runsIn(c, branches));
        return r.places().stream()
                .flatMap(p -> Plugs.at(circuit, p))
                .distinct()
                .map(circuit.connectors()::get)
                .toList();
    }

    private boolean runsIn(Connector c, Set<String> branches) {
        return circuit.wires().values().stream()
                .filter(w -> w.endsIn(c.id()))
                .anyMatch(w -> layout.runs(w.id()).stream().anyMatch(run -> branches.contains(run.branch())));
    }

    private static Set<PlaceId> places(Work work, Set<String> branches, List<Connector> plugs) {
        Set<PlaceId> out = new LinkedHashSet<>();
        if (work instanceof Work.Repair r) out.addAll(r.places());
        branches.forEach(b -> out.add(new PlaceId(PlaceId.Kind.BRANCH, b)));
        plugs.forEach(c -> out.add(new PlaceId(PlaceId.Kind.CONNECTOR, c.id())));
        return out;
    }

    private Task unplug(Connector c) {
        return Task.of(
                "Unplug " + c.label() + " (" + c.id() + "); note its position, look into both halves",
                cautions(c.id()));
    }

    /** Cautions of a place and of the plug or the branches that it lies on. */
    private List<String> cautionsAt(PlaceId place) {
        Set<String> out = new LinkedHashSet<>(cautions(place.id()));
        switch (place.kind()) {
            case CAVITY -> out.addAll(cautions(Names.connectorOf(place.id())));
            case SPLICE -> out.addAll(cautions(circuit.splices().get(place.id()).branch()));
            case WIRE -> layout.runs(place.id()).forEach(r -> out.addAll(cautions(r.branch())));
            default -> {}
        }
        return List.copyOf(out);
    }

    private List<String> cautions(String place) {
        return policy.cautions().stream()
                .filter(c -> c.placeId().equals(place))
                .map(c -> c.text())
                .distinct()
                .toList();
    }

    private List<Task> working(Work work, Route route, List<Connector> plugs) {
        List<Task> out = new ArrayList<>();
        if (work instanceof Work.Repair r) {
            for (PlaceId p : r.places()) out.add(Task.of("Do the work at " + p, cautionsAt(p)));
            for (Connector c : plugs) out.add(plug(c));
            return out;
        }
        out.add(Task.of("Lay new beside old before anything is fixed: compare every plug, key and reach"));
        for (Branch b : route.laid()) {
            out.add(Task.of(
                    "Lay " + b.label() + " (" + b.id() + ", " + b.metres() + " m), " + b.clips() + " clips"
                            + (b.build().brackets().isEmpty()
                                    ? ""
                                    : ", " + String.join(", ", b.build().brackets())),
                    cautions(b.id())));
            for (Branch.RubPoint rub : b.rubPoints())
                out.add(Task.of("Guard at " + rub.id() + ": " + rub.label() + "; the loom must not touch"));
        }
        for (Connector c : plugs) out.add(plug(c));
        return out;
    }

    private Task plug(Connector c) {
        boolean second = c.shell().map(Connector.Shell::secondaryLock).orElse(false);
        return Task.of("Plug in " + c.label() + " (" + c.id() + "): push, click, tug"
                + (second ? "; second lock closed" : ""));
    }

    private List<Task> closing(List<String> steps) {
        List<String> back = new ArrayList<>(steps);
        Collections.reverse(back);
        List<Task> out = new ArrayList<>();
        for (String id : back) {
            AccessStep s = circuit.access().get(id);
            out.add(new Task(
                    "Undo: " + s.label(),
                    OptionalDouble.empty(),
                    s.tools(),
                    s.caution().isEmpty() ? List.of() : List.of(upper(s.caution()) + "."),
                    Optional.of(id)));
            for (String a : s.after())
                out.add(new Task(upper(a), OptionalDouble.empty(), List.of(), List.of(), Optional.of(id)));
        }
        out.add(Task.of("Battery back on, all tools out, nothing left on the engine", List.of(BATTERY)));
        return out;
    }

    private static String upper(String text) {
        return text.isEmpty() ? text : Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }
}
