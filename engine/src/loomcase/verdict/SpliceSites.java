package loomcase.verdict;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.DoubleStream;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Joints;
import loomcase.model.Layout;

/**
 * Finds places for new splices in a branch: away from plugs, branchings, old splices and clips, no two side by side.
 *
 * <p>A site is a point of a 10 mm raster on the wire's own run. It is scored by its distance from the damage; points nearer
 * than {@value #FROM_END} m to an end of the branch or {@value #FROM_CLIP} m to a clip, or beside a splice that is there or
 * was just placed, are taken only when there is nothing better. FAA AC 43.13-1B 11-167 asks for staggered splices and 12 in
 * to a termination on aircraft; trucks do with 40 to 100 mm (common practice, no source); the offset of one sleeve and a
 * gap is geometry.
 */
final class SpliceSites {
    static final double FROM_END = 0.1;
    static final double FROM_CLIP = 0.04;
    static final double STAGGER = 0.05;
    private static final double STEP = 0.01;

    private final Circuit circuit;
    private final Layout layout;

    SpliceSites(Circuit circuit, Layout layout) {
        this.circuit = circuit;
        this.layout = layout;
    }

    /**
     * Sites for one splice in each wire.
     *
     * @param wires ids, in the order in which they get their site
     * @param branch where
     * @param damage metres along the branch; the middle of the first wire's run when not known
     * @return in order of the wires; a wire that does not run in the branch gets none
     */
    List<Remedy.SpliceSite> of(List<String> wires, String branch, OptionalDouble damage) {
        return of(wires, branch, damage, "");
    }

    /** The site for a splice made anew: the old one's, or the nearest good one on a leg that runs in the branch. */
    List<Remedy.SpliceSite> replacing(Joints.Splice splice, List<String> legs) {
        return legs.stream()
                .map(leg -> of(List.of(leg), splice.branch(), OptionalDouble.of(splice.metresAlong()), splice.id()))
                .filter(sites -> !sites.isEmpty())
                .min(Comparator.comparingDouble(sites -> badness(
                                circuit.branches().get(splice.branch()),
                                sites.get(0).metresAlong(),
                                List.of(),
                                splice.id())
                        + Math.abs(sites.get(0).metresAlong() - splice.metresAlong())))
                .orElse(List.of());
    }

    private List<Remedy.SpliceSite> of(List<String> wires, String branch, OptionalDouble damage, String without) {
        List<Remedy.SpliceSite> out = new ArrayList<>();
        for (String wire : wires)
            for (Layout.Run run : layout.runs(wire)) {
                if (!run.branch().equals(branch)) continue;
                double from = damage.orElse((run.fromMetres() + run.toMetres()) / 2);
                out.add(site(wire, run, from, out, without));
                break;
            }
        return out;
    }

    private Remedy.SpliceSite site(
            String wire, Layout.Run run, double damage, List<Remedy.SpliceSite> placed, String without) {
        Branch b = circuit.branches().get(run.branch());
        int steps = Math.max(0, (int) Math.floor(run.metres() / STEP));
        return java.util.stream.IntStream.rangeClosed(0, steps)
                .mapToDouble(i -> run.fromMetres() + i * STEP)
                .boxed()
                .min(Comparator.comparingDouble((Double x) -> badness(b, x, placed, without) + Math.abs(x - damage))
                        .thenComparing(x -> x))
                .map(x -> new Remedy.SpliceSite(
                        wire,
                        b.id(),
                        Math.round(x * 100) / 100.0,
                        Math.min(x, b.metres() - x),
                        toClip(b, x),
                        b.build().flexes()))
                .orElseThrow();
    }

    private double badness(Branch b, double x, List<Remedy.SpliceSite> placed, String without) {
        double end = Math.max(0, FROM_END - Math.min(x, b.metres() - x)) / FROM_END;
        double clip = Math.max(0, FROM_CLIP - toClip(b, x)) / FROM_CLIP;
        DoubleStream others = DoubleStream.concat(
                placed.stream().filter(s -> s.branch().equals(b.id())).mapToDouble(Remedy.SpliceSite::metresAlong),
                circuit.splices().values().stream()
                        .filter(s -> s.branch().equals(b.id()) && !s.id().equals(without))
                        .mapToDouble(Joints.Splice::metresAlong));
        double beside = others.map(y -> Math.max(0, STAGGER - 1e-9 - Math.abs(x - y)) / STAGGER)
                .max()
                .orElse(0);
        // a metre of detour is worth less than a bad site; beside another splice is worst, for the bundle grows there
        return 30 * beside + 20 * end + 10 * clip;
    }

    /** Distance to the nearest clip in metres; clips stand in the middle of equal stretches. */
    static double toClip(Branch b, double x) {
        double best = Double.POSITIVE_INFINITY;
        for (int i = 0; i < b.clips(); i++) best = Math.min(best, Math.abs(x - (i + 0.5) * b.metres() / b.clips()));
        return best;
    }
}
