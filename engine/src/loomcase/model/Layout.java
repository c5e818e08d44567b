package loomcase.model;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Where every wire runs: the branch tree of a circuit and, for each wire, the stretches of branch it passes.
 *
 * <p>Splices cut their branch into segments; a wire takes the only path between its ends through the tree of segments.
 * Cost: linear in branches plus, for each wire, the depth of the tree.
 */
public final class Layout {
    /** Length in metres that a wire has at each end beyond its branches, inside plugs and loops (judgement). */
    public static final double TAIL_METRES = 0.05;

    /**
     * A stretch of one branch that a wire passes.
     *
     * @param branch branch id
     * @param fromMetres nearer end, measured from the branch's {@code from} junction
     * @param toMetres farther end
     */
    public record Run(String branch, double fromMetres, double toMetres) {
        /** Length in metres. */
        public double metres() {
            return toMetres - fromMetres;
        }

        /** True when the point at this distance along the branch lies on the stretch. */
        public boolean passes(double metresAlong) {
            return metresAlong >= fromMetres - 1e-9 && metresAlong <= toMetres + 1e-9;
        }
    }

    private record Segment(String a, String b, String branch, double from, double to) {}

    private record Step(String parent, Segment by, int depth) {}

    private final Circuit circuit;
    private final Map<String, Step> tree = new LinkedHashMap<>();
    private final Map<String, List<Run>> runs = new LinkedHashMap<>();
    private final Map<String, List<Wire>> inBranch = new LinkedHashMap<>();
    private final List<String> problems = new ArrayList<>();

    public Layout(Circuit circuit) {
        this.circuit = circuit;
        grow();
        for (Wire wire : circuit.wires().values()) {
            List<Run> route = route(wire);
            runs.put(wire.id(), route);
            for (Run r : route) addLast(inBranch.computeIfAbsent(r.branch(), k -> new ArrayList<>()), wire);
        }
    }

    /** Adds a wire that may pass a branch in several stretches. */
    private static void addLast(List<Wire> wires, Wire wire) {
        if (wires.isEmpty() || wires.get(wires.size() - 1) != wire) wires.add(wire);
    }

    /** What is wrong with the branch tree, one sentence each; empty when it is a tree. */
    public List<String> problems() {
        return Collections.unmodifiableList(problems);
    }

    /** The stretches a wire passes, in order from its first end; empty when both ends hang at one junction. */
    public List<Run> runs(String wire) {
        return runs.get(wire);
    }

    /** Length of a wire in metres: as stated, or its route plus a tail at each end. */
    public double metres(Wire wire) {
        if (wire.givenMetres().isPresent()) return wire.givenMetres().getAsDouble();
        return runs.get(wire.id()).stream().mapToDouble(Run::metres).sum() + 2 * TAIL_METRES;
    }

    /** Wires that pass a point of a branch, in file order. */
    public List<Wire> passing(String branch, double metresAlong) {
        return in(branch).stream()
                .filter(w ->
                        runs.get(w.id()).stream().anyMatch(r -> r.branch().equals(branch) && r.passes(metresAlong)))
                .toList();
    }

    /** Wires with any part in a branch, in file order. */
    public List<Wire> in(String branch) {
        return Collections.unmodifiableList(inBranch.getOrDefault(branch, List.of()));
    }

    /** The junction or splice where a harness point hangs in the tree; empty when it hangs nowhere. */
    public Optional<String> whereIs(String point) {
        if (circuit.splices().containsKey(point)) return Optional.of(spliceNode(point));
        if (circuit.grounds().containsKey(point))
            return Optional.of(circuit.grounds().get(point).at());
        String owner = Names.connectorOf(point);
        if (circuit.fuses().containsKey(owner))
            return Optional.of(circuit.fuses().get(owner).at());
        if (circuit.connectors().containsKey(owner))
            return Optional.of(circuit.connectors().get(owner).at());
        return Optional.empty();
    }

    private static String spliceNode(String splice) {
        return "splice " + splice;
    }

    private void grow() {
        Map<String, List<Segment>> at = new LinkedHashMap<>();
        for (Branch branch : circuit.branches().values())
            for (Segment s : segments(branch)) {
                at.computeIfAbsent(s.a(), k -> new ArrayList<>()).add(s);
                at.computeIfAbsent(s.b(), k -> new ArrayList<>()).add(s);
            }
        if (at.isEmpty()) {
            problems.add("the circuit has no branches");
            return;
        }
        String root = at.keySet().iterator().next();
        ArrayDeque<String> open = new ArrayDeque<>(List.of(root));
        tree.put(root, new Step("", null, 0));
        Set<String> loops = new HashSet<>();
        while (!open.isEmpty()) {
            String here = open.remove();
            for (Segment s : at.get(here)) {
                if (s == tree.get(here).by()) continue;
                String next = s.a().equals(here) ? s.b() : s.a();
                if (tree.containsKey(next)) {
                    // both ends of the closing branch come by here; one sentence is enough
                    if (loops.add(s.branch()))
                        problems.add("branch " + s.branch() + " closes a loop of branches at " + next
                                + "; a loom is a tree, so remove or re-end one branch of the loop");
                    continue;
                }
                tree.put(next, new Step(here, s, tree.get(here).depth() + 1));
                open.add(next);
            }
        }
        for (String node : at.keySet())
            if (!tree.containsKey(node))
                problems.add(
                        "junction " + node + " is not joined to " + root + " by branches; add the branch between them");
    }

    private List<Segment> segments(Branch branch) {
        List<Joints.Splice> here = circuit.splices().values().stream()
                .filter(s -> s.branch().equals(branch.id()))
                .sorted(Comparator.comparingDouble(Joints.Splice::metresAlong).thenComparing(Joints.Splice::id))
                .toList();
        List<Segment> out = new ArrayList<>();
        String from = branch.from();
        double along = 0;
        for (Joints.Splice s : here) {
            out.add(new Segment(from, spliceNode(s.id()), branch.id(), along, s.metresAlong()));
            from = spliceNode(s.id());
            along = s.metresAlong();
        }
        out.add(new Segment(from, branch.to(), branch.id(), along, branch.metres()));
        return out;
    }

    private List<Run> route(Wire wire) {
        Optional<String> from = whereIs(wire.from());
        Optional<String> to = whereIs(wire.to());
        if (from.isEmpty() || to.isEmpty() || !tree.containsKey(from.get()) || !tree.containsKey(to.get()))
            return List.of();
        List<Segment> up = new ArrayList<>();
        List<Segment> down = new ArrayList<>();
        String a = from.get();
        String b = to.get();
        while (!a.equals(b)) {
            if (tree.get(a).depth() >= tree.get(b).depth()) {
                up.add(tree.get(a).by());
                a = tree.get(a).parent();
            } else {
                down.add(tree.get(b).by());
                b = tree.get(b).parent();
            }
        }
        Collections.reverse(down);
        up.addAll(down);
        return merge(up);
    }

    private static List<Run> merge(List<Segment> path) {
        List<Run> out = new ArrayList<>();
        for (Segment s : path) {
            if (s.to() <= s.from()) continue;
            Run last = out.isEmpty() ? null : out.get(out.size() - 1);
            if (last != null && last.branch().equals(s.branch())) {
                double lo = Math.min(last.fromMetres(), s.from());
                out.set(out.size() - 1, new Run(s.branch(), lo, Math.max(last.toMetres(), s.to())));
            } else out.add(new Run(s.branch(), s.from(), s.to()));
        }
        return List.copyOf(out);
    }
}
