package loomcase.faults;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import loomcase.faults.WorkDone.Deed;
import loomcase.faults.WorkDone.Job;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/**
 * How probable it is that a fault which was there before work is there after it.
 *
 * <p>A fault that the work is made for is left with {@code work.left.mended}; another one at a place that was worked at, or
 * that lies there only in part, with {@code work.left.touched}; any other one surely. Of several pieces of work the one
 * that leaves least counts, once: a second new sensor says little more than the first.
 *
 * <ul>
 *   <li>A new plug mends its contacts, crimps and what is wrong with the plug as a whole, on either half of an inline pair; a
 *       new terminal those of its cavity, and only touches the plug. A new wire has new crimps and new ends in its splices,
 *       and touches its contacts.
 *   <li>A branch replaced mends its common causes and its splices, one repaired only the causes; work at a rub point
 *       concerns that point alone.
 *   <li>A fault somewhere along a wire is left by what was done to that share of its exposure. A short of two nets lies with
 *       each pair of their wires by the metres that they run side by side, and is mended by work at either wire of the pair.
 *   <li>A fault between two cavities is mended when both were worked at, and touched when one was.
 *   <li>A common cause is as before where it may have hit other wires; the {@linkplain Hypothesis.Hit#left hit} of a wire
 *       that was repaired is not.
 *   <li>A true engine condition is no work's to mend.
 * </ul>
 */
final class WorkLeft {
    private final Circuit circuit;
    private final Layout layout;
    private final Exposure exposure;
    private final List<Job> jobs;
    private final double mended;
    private final double touched;
    private final Nets nets;

    /** By branch, by net, the wires that run there; empty unless wires or branches were worked at. */
    private final Map<String, Map<String, List<Wire>>> beside = new HashMap<>();

    WorkLeft(Circuit circuit, Layout layout, Priors priors, List<Job> jobs) {
        this.circuit = circuit;
        this.layout = layout;
        this.exposure = new Exposure(circuit, layout, priors);
        this.jobs = jobs;
        this.mended = priors.get("work.left.mended");
        this.touched = priors.get("work.left.touched");
        this.nets = new Nets(circuit);
        if (jobs.stream().anyMatch(WorkLeft::alongWires))
            for (String b : circuit.branches().keySet())
                for (Wire w : layout.in(b))
                    beside.computeIfAbsent(b, k -> new HashMap<>())
                            .computeIfAbsent(nets.of(w), k -> new ArrayList<>())
                            .add(w);
    }

    private static boolean alongWires(Job j) {
        return j.place().kind() == PlaceId.Kind.WIRE || j.place().kind() == PlaceId.Kind.BRANCH;
    }

    /**
     * What is left of a fault.
     *
     * @param odds factor on its odds, 0 to 1
     * @param by the work that leaves least; empty when none concerns it
     */
    record Left(double odds, Optional<Job> by) {
        static final Left ALL = new Left(1, Optional.empty());

        static Left least(Left a, Left b) {
            return b.odds < a.odds ? b : a;
        }
    }

    Left of(Hypothesis h) {
        PlaceId at = h.place();
        return switch (at.kind()) {
            case CAVITY -> cavities(h);
            case CONNECTOR -> least(j -> plug(j, h.family(), at.id()));
            case WIRE -> along(h.family(), circuit.wires().get(at.id()));
            case BRANCH -> h.places().size() == 1 ? least(j -> branch(j, h)) : between(h);
            case SPLICE -> least(j -> splice(j, h));
            case DEVICE, CONTROL_UNIT, GROUND, FUSE -> least(j -> j.place().equals(at) ? by(j, h.family()) : Left.ALL);
            case ENGINE -> Left.ALL;
        };
    }

    /** The hit of a common cause, with what work at its wire has left of it. */
    Hypothesis.Hit of(Hypothesis.Hit hit, String family) {
        if (hit.place().kind() != PlaceId.Kind.WIRE) return hit;
        Left left = least(j -> j.place().equals(hit.place()) ? by(j, family) : Left.ALL);
        return hit.leaving(left.odds);
    }

    private interface Each {
        Left left(Job job);
    }

    private Left least(Each each) {
        Left out = Left.ALL;
        for (Job j : jobs) out = Left.least(out, each.left(j));
        return out;
    }

    private Left by(Job j, String family) {
        return j.deed().madeFor(family) ? new Left(mended, Optional.of(j)) : touched(j);
    }

    private Left touched(Job j) {
        return new Left(touched, Optional.of(j));
    }

    private Left cavities(Hypothesis h) {
        Left least = Left.ALL;
        Left most = new Left(0, Optional.empty());
        for (PlaceId p : h.places()) {
            Left one = least(j -> cavity(j, h.family(), p.id()));
            least = Left.least(least, one);
            if (one.odds > most.odds) most = one;
        }
        return most.odds == 1 && least.by.isPresent() ? touched(least.by.get()) : most;
    }

    private Left cavity(Job j, String family, String cavity) {
        String at = j.place().id();
        return switch (j.place().kind()) {
            case CAVITY -> sameContact(at, cavity) ? by(j, family) : Left.ALL;
            case CONNECTOR -> samePlug(at, Names.connectorOf(cavity)) ? by(j, family) : Left.ALL;
            case WIRE -> {
                if (j.deed() != Deed.REPLACED || !ends(at).anyMatch(e -> sameContact(e, cavity))) yield Left.ALL;
                yield family.startsWith("crimp.") ? by(j, family) : touched(j);
            }
            default -> Left.ALL;
        };
    }

    private Stream<String> ends(String wire) {
        Wire w = circuit.wires().get(wire);
        return Stream.of(w.from(), w.to());
    }

    private boolean sameContact(String a, String b) {
        return Names.cavityOf(a).equals(Names.cavityOf(b)) && samePlug(Names.connectorOf(a), Names.connectorOf(b));
    }

    private boolean samePlug(String a, String b) {
        return a.equals(b)
                || circuit.connectors().containsKey(a)
                        && circuit.connectors().get(a).mates().equals(b);
    }

    private Left plug(Job j, String family, String plug) {
        if (j.place().kind() == PlaceId.Kind.CONNECTOR)
            return samePlug(j.place().id(), plug) ? by(j, family) : Left.ALL;
        boolean part = j.place().kind() == PlaceId.Kind.CAVITY
                && samePlug(Names.connectorOf(j.place().id()), plug);
        return part ? touched(j) : Left.ALL;
    }

    private Left branch(Job j, Hypothesis h) {
        if (!j.place().equals(h.place())) return Left.ALL;
        if (j.rubPoint().isEmpty()) return by(j, h.family());
        return h.rubPoint().equals(j.rubPoint()) ? by(j, h.family()) : Left.ALL;
    }

    private Left splice(Job j, Hypothesis h) {
        if (j.place().equals(h.place())) return by(j, h.family());
        if (h.places().contains(j.place()) && j.deed().renews())
            return j.deed() == Deed.REPLACED ? by(j, h.family()) : touched(j);
        String branch = circuit.splices().get(h.place().id()).branch();
        return inBranch(j, branch, h.family());
    }

    /** What work at a branch leaves of a fault that is no common cause. */
    private Left inBranch(Job j, String branch, String family) {
        boolean here = j.place().kind() == PlaceId.Kind.BRANCH
                && j.place().id().equals(branch)
                && j.rubPoint().isEmpty();
        if (!here) return Left.ALL;
        return switch (j.deed()) {
            case REPLACED, REROUTED -> by(j, family);
            case REPAIRED -> touched(j);
            case RESEATED, CLEANED -> Left.ALL;
        };
    }

    /** Mean of what is left over stretches, each with its exposure. */
    private static final class Mean {
        private double sum;
        private double left;
        private Left least = Left.ALL;

        void add(double exposure, Left here) {
            sum += exposure;
            left += exposure * here.odds;
            least = Left.least(least, here);
        }

        Left left() {
            return sum == 0 ? Left.ALL : new Left(left / sum, least.by);
        }
    }

    private Left along(String family, Wire w) {
        Mean mean = new Mean();
        double inBranches = 0;
        for (Layout.Run run : layout.runs(w.id())) {
            inBranches += run.metres();
            mean.add(run.metres() * factor(run.branch()), stretch(family, run.branch(), w, w));
        }
        mean.add(Math.max(0, layout.metres(w) - inBranches), stretch(family, "", w, w));
        return mean.left();
    }

    private Left between(Hypothesis h) {
        if (beside.isEmpty()) return Left.ALL;
        String a = nets.of(circuit.wires().get(h.places().get(1).id()));
        String b = nets.of(circuit.wires().get(h.places().get(2).id()));
        Mean mean = new Mean();
        beside.forEach((branch, byNet) -> {
            for (Wire x : byNet.getOrDefault(a, List.of()))
                for (Wire y : byNet.getOrDefault(b, List.of()))
                    mean.add(
                            Math.min(metres(x, branch), metres(y, branch)) * factor(branch),
                            stretch(h.family(), branch, x, y));
        });
        return mean.left();
    }

    private Left stretch(String family, String branch, Wire x, Wire y) {
        return least(j -> {
            boolean wire = j.place().kind() == PlaceId.Kind.WIRE
                    && (j.place().id().equals(x.id()) || j.place().id().equals(y.id()));
            return wire ? by(j, family) : inBranch(j, branch, family);
        });
    }

    private double metres(Wire w, String branch) {
        return layout.runs(w.id()).stream()
                .filter(r -> r.branch().equals(branch))
                .mapToDouble(Layout.Run::metres)
                .sum();
    }

    private double factor(String branch) {
        return exposure.factor(circuit.branches().get(branch).zone());
    }
}
