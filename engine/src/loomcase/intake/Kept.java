package loomcase.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import loomcase.faults.WorkDone;
import loomcase.meter.Setup;
import loomcase.meter.Test;
import loomcase.model.Circuit;
import loomcase.model.Copper;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Plugs;
import loomcase.model.Wire;

/**
 * Which tests made before work still hold after it.
 *
 * <p>Tests made before work that changed nothing ({@link Worked}) are kept unless they may have shown what was worked at;
 * those before other work are not, nor any where codes were not read again.
 *
 * <p>A test before work that changed nothing does not hold when
 *
 * <ul>
 *   <li>it looked at, moved or swapped the place worked at, a part of it, or a plug that the work took apart;
 *   <li>a meter's lead lay on copper of the place, or codes were watched with such a plug apart. Copper of a wire, splice,
 *       fuse or stud is its whole net; of a plug the nets of its cavities; of a branch those of the wires in it.
 *   <li>A part at the end of a plug is on that copper only where the plug was mated for the test, or a lead lay on the part.
 * </ul>
 */
final class Kept {
    private final Circuit circuit;

    /** Made when first asked for: few cases have work. */
    private Optional<Copper> copper = Optional.empty();

    private final Worked worked;
    private int kept;
    private int old;
    private int concerned;

    Kept(Circuit circuit, Worked worked) {
        this.circuit = circuit;
        this.worked = worked;
    }

    /**
     * Whether a line still holds.
     *
     * @param line place among the facts
     * @param test the test that it is; empty where it is none
     */
    boolean keeps(int line, Optional<Test> test) {
        if (test.isEmpty()) return true;
        if (line < worked.lastChange()) {
            old++;
            return false;
        }
        WorkDone later = worked.from(line);
        if (later.jobs().isEmpty()) return true;
        boolean shows = concerns(test.get(), later);
        if (shows) concerned++;
        else kept++;
        return !shows;
    }

    /** What was kept and left out, one sentence each. */
    List<String> notes() {
        List<String> out = new ArrayList<>();
        if (old > 0) out.add(old + " tests made before the last repair are left out");
        if (kept > 0)
            out.add(kept
                    + " tests made before a repair are kept: codes of the same SPNs were active before and after it");
        if (concerned > 0) out.add(concerned + " tests of what was repaired since are left out");
        return out;
    }

    private boolean concerns(Test test, WorkDone later) {
        if (test instanceof Test.Look l) return concerns(l.place(), later);
        if (test instanceof Test.Wiggle w) return concerns(w.place(), later);
        if (test instanceof Test.SwapWithNeighbour s)
            return later.jobs().stream()
                    .map(WorkDone.Job::place)
                    .anyMatch(p -> p.kind() == PlaceId.Kind.DEVICE
                            && (s.device().equals(p.id()) || s.other().equals(p.id())));
        if (test instanceof Test.Gauge) return false;
        if (test instanceof Test.Watched w)
            return later.jobs().stream().anyMatch(j -> touches(cavities(w.connector()), w.setup(), j));
        if (test instanceof Test.Numeric n)
            return later.jobs().stream().anyMatch(j -> touches(Stream.of(n.pointA(), n.pointB()), n.setup(), j));
        throw new IllegalStateException("unknown test " + test);
    }

    private boolean concerns(PlaceId tested, WorkDone later) {
        boolean plug = tested.kind() == PlaceId.Kind.CONNECTOR || tested.kind() == PlaceId.Kind.CAVITY;
        if (plug && later.apart().keySet().stream().anyMatch(p -> samePlug(p, Names.connectorOf(tested.id()))))
            return true;
        return later.jobs().stream().anyMatch(j -> holds(j.place(), tested));
    }

    /** True when a place is another, or a part of it. */
    private boolean holds(PlaceId whole, PlaceId part) {
        if (part.equals(whole)) return true;
        return whole.kind() == PlaceId.Kind.BRANCH
                && switch (part.kind()) {
                    case SPLICE -> circuit.splices().get(part.id()).branch().equals(whole.id());
                    case WIRE ->
                        new Layout(circuit).runs(part.id()).stream().anyMatch(r -> r.branch()
                                .equals(whole.id()));
                    default -> false;
                };
    }

    private boolean samePlug(String a, String b) {
        return a.equals(b) || circuit.connectors().get(a).mates().equals(b);
    }

    private boolean touches(Stream<String> leads, Setup setup, WorkDone.Job job) {
        List<String> points = leads.filter(p -> !p.equals(Names.CHASSIS)).toList();
        Stream<String> worked = copperOf(job);
        if (job.place().kind() == PlaceId.Kind.DEVICE || job.place().kind() == PlaceId.Kind.CONTROL_UNIT) {
            List<String> plugs = Plugs.at(circuit, job.place()).toList();
            if (points.stream().anyMatch(p -> onPart(p) && plugs.contains(Names.connectorOf(p)))) return true;
            worked = plugs.stream().filter(p -> !setup.unplugged().contains(p)).flatMap(this::cavities);
        }
        Copper nets = nets();
        Set<String> of = worked.map(nets::net).collect(Collectors.toSet());
        return points.stream()
                .filter(p -> !onPart(p) || !setup.unplugged().contains(Names.connectorOf(p)))
                .anyMatch(p -> of.contains(nets.net(onPart(p) ? p.substring(0, p.length() - 1) : p)));
    }

    private Copper nets() {
        if (copper.isEmpty()) copper = Optional.of(Copper.of(circuit));
        return copper.get();
    }

    /** True of a point on the part that a cavity plugs onto. */
    private static boolean onPart(String point) {
        return point.equals(Names.mating(point.substring(0, point.length() - 1)));
    }

    private Stream<String> cavities(String plug) {
        return circuit.connectors().get(plug).rows().stream()
                .flatMap(List::stream)
                .map(c -> plug + "/" + c);
    }

    private Stream<String> copperOf(WorkDone.Job worked) {
        String id = worked.place().id();
        return switch (worked.place().kind()) {
            case CAVITY, SPLICE, GROUND -> Stream.of(id);
            case CONNECTOR -> cavities(id);
            case WIRE -> Stream.of(circuit.wires().get(id).from());
            case FUSE -> Stream.of(id + "/in");
            case BRANCH -> inBranch(worked).stream().map(Wire::from);
            case DEVICE, CONTROL_UNIT, ENGINE -> Stream.of();
        };
    }

    private List<Wire> inBranch(WorkDone.Job worked) {
        String branch = worked.place().id();
        Layout layout = new Layout(circuit);
        return worked.rubPoint()
                .flatMap(r -> circuit.branches().get(branch).rubPoints().stream()
                        .filter(p -> p.id().equals(r))
                        .findFirst())
                .map(p -> layout.passing(branch, p.metresAlong()))
                .orElseGet(() -> layout.in(branch));
    }
}
