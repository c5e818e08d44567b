package loomcase.faults;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Plugs;
import loomcase.model.Wire;

/**
 * Work done on an engine before its codes were read.
 *
 * @param apart plugs that were apart, and whether terminals were moved in them
 * @param jobs what was worked at, in order
 */
public record WorkDone(Map<String, Boolean> apart, List<Job> jobs) {
    /** Nobody worked at the engine. */
    public static final WorkDone NONE = new WorkDone(Map.of(), List.of());

    /** What was done at a place. */
    public enum Deed {
        REPAIRED,
        REPLACED,
        RESEATED,
        CLEANED,
        REROUTED;

        private static final List<String> RESEATING =
                List.of("contact.backed-out", "common.unplugged", "common.half-latched");
        private static final List<String> CLEANING =
                List.of("contact.bridge", "contact.resistive", "common.wet-connector", "ground.resistive");
        private static final List<String> REROUTING =
                List.of("common.rub-point.ground", "wire.short-ground", "wire.leak-ground");

        /** True when the work has new or repaired parts in place of the old ones. */
        boolean renews() {
            return this == REPAIRED || this == REPLACED;
        }

        /** True when a fault of this family at the place is what such work takes away (common practice, no source). */
        public boolean madeFor(String family) {
            return switch (this) {
                case REPAIRED, REPLACED -> true;
                case RESEATED -> RESEATING.contains(family);
                case CLEANED -> CLEANING.contains(family);
                case REROUTED -> REROUTING.contains(family);
            };
        }
    }

    /**
     * One piece of work.
     *
     * @param rubPoint rub point of a branch, when the work was done there alone
     */
    public record Job(Deed deed, PlaceId place, Optional<String> rubPoint) {
        /** Work at a place as a whole. */
        public Job(Deed deed, PlaceId place) {
            this(deed, place, Optional.empty());
        }

        /** In plain words. */
        String words() {
            return rubPoint.map(r -> "rub point " + r + " on " + place).orElseGet(place::toString) + " "
                    + deed.name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    public WorkDone {
        apart = Collections.unmodifiableMap(new TreeMap<>(apart));
        jobs = List.copyOf(jobs);
    }

    /** Plugs that were apart, without a repair. */
    public static WorkDone apart(Map<String, Boolean> plugs) {
        return new WorkDone(plugs, List.of());
    }

    /**
     * Work after which codes were active, and of no SPN that had none before it. No slip is looked for at its plugs: the slip
     * would have had to set the codes of a fault that the work had just mended, and the product of the two is no larger than
     * the base rate of the slip (0.02 times some thousandth).
     */
    public static WorkDone inVain(List<Job> jobs) {
        return new WorkDone(Map.of(), jobs);
    }

    /**
     * One piece of work that may have changed something, with the plugs that it takes apart. Terminals count as moved where a
     * cavity, a wire or a plug was repaired or replaced; a part that was replaced or a plug that was reseated or cleaned was only apart.
     */
    public static WorkDone of(Circuit circuit, Job job) {
        boolean moved = job.deed.renews()
                && switch (job.place.kind()) {
                    case CAVITY, CONNECTOR, WIRE -> true;
                    default -> false;
                };
        Map<String, Boolean> plugs = new TreeMap<>();
        Plugs.at(circuit, job.place).forEach(p -> plugs.put(p, moved));
        return new WorkDone(plugs, List.of(job));
    }

    /**
     * Branches replaced, with the plugs and ground terminals all of whose wires come out of them. Those plugs are new and were
     * apart; nobody moved terminals in them.
     */
    public static WorkDone section(Circuit circuit, Layout layout, List<String> branches) {
        List<Job> jobs = new ArrayList<>();
        branches.forEach(b -> jobs.add(new Job(Deed.REPLACED, new PlaceId(PlaceId.Kind.BRANCH, b))));
        Map<String, Boolean> inside = new TreeMap<>();
        for (Wire w : circuit.wires().values())
            for (String end : List.of(w.from(), w.to()))
                inside.merge(
                        Names.connectorOf(end),
                        branches.containsAll(branchesAt(circuit, layout, w, end)),
                        Boolean::logicalAnd);
        Map<String, Boolean> plugs = new TreeMap<>();
        inside.forEach((end, all) -> {
            if (!all) return;
            if (circuit.grounds().containsKey(end))
                jobs.add(new Job(Deed.REPLACED, new PlaceId(PlaceId.Kind.GROUND, end)));
            if (!circuit.connectors().containsKey(end)) return;
            jobs.add(new Job(Deed.REPLACED, new PlaceId(PlaceId.Kind.CONNECTOR, end)));
            plugs.put(end, false);
        });
        return new WorkDone(plugs, jobs);
    }

    /** The branch that a wire comes out of at one end; of a wire that runs in none all that meet there. */
    private static List<String> branchesAt(Circuit circuit, Layout layout, Wire w, String end) {
        List<Layout.Run> runs = layout.runs(w.id());
        if (!runs.isEmpty())
            return List.of(runs.get(end.equals(w.from()) ? 0 : runs.size() - 1).branch());
        String here = layout.whereIs(end).orElse("");
        return circuit.branches().values().stream()
                .filter(b -> b.from().equals(here) || b.to().equals(here))
                .map(Branch::id)
                .toList();
    }

    /** Both, this first. */
    public WorkDone and(WorkDone later) {
        Map<String, Boolean> plugs = new TreeMap<>(apart);
        later.apart.forEach((p, moved) -> plugs.merge(p, moved, Boolean::logicalOr));
        List<Job> both = new ArrayList<>(jobs);
        both.addAll(later.jobs);
        return new WorkDone(plugs, both);
    }

    /** True when nothing was done. */
    public boolean isNone() {
        return apart.isEmpty() && jobs.isEmpty();
    }
}
