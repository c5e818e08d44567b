package loomcase.draw;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.draw.Loom.Shape;
import loomcase.draw.Sketch.Knot;
import loomcase.draw.Sketch.Mark;
import loomcase.draw.Sketch.Row;
import loomcase.draw.Sketch.Run;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.Wire;

/**
 * The path that some wires take over the picture, as strokes without repeats: along branches between the points where the
 * wires end, through junctions, and out to the plugs, fuses and grounds.
 */
final class Trace {
    private final Circuit circuit;
    private final Layout layout;
    private final Map<String, Run> runs = new LinkedHashMap<>();
    private final Map<String, Row> rows = new LinkedHashMap<>();
    private final Map<String, Knot> knots = new LinkedHashMap<>();
    private final Map<String, List<double[]>> along = new LinkedHashMap<>();
    private final Set<String> across = new LinkedHashSet<>();

    Trace(Circuit circuit, Layout layout, List<Knot> roots, List<Row> unitRows) {
        this.circuit = circuit;
        this.layout = layout;
        roots.forEach(this::collect);
        for (Row row : unitRows) index(row, roots.get(0));
    }

    private void collect(Knot knot) {
        for (Row row : knot.rows) index(row, knot);
        for (Run run : knot.runs) {
            runs.put(run.limb.branch().id(), run);
            collect(run.far);
        }
    }

    private void index(Row row, Knot knot) {
        row.leaf.parts().forEach(p -> {
            if (p.shape() != Shape.PLUG && p.shape() != Shape.FUSE && p.shape() != Shape.GROUND) return;
            rows.put(p.id(), row);
            knots.put(p.id(), knot);
        });
    }

    /** Path data ({@code M x y V y H x}), one for each stroke. */
    List<String> strokes(List<String> wires) {
        for (String id : wires) {
            Wire wire = circuit.wires().get(id);
            layout.runs(id).forEach(r -> along(wire, r));
            end(wire.from());
            end(wire.to());
        }
        List<String> out = new ArrayList<>();
        along.forEach((branch, parts) -> merged(parts).forEach(p -> out.add(path(p[0], runs.get(branch).y, p[1]))));
        out.addAll(across);
        return out;
    }

    private static String path(double x0, double y, double x1) {
        return "M" + Svg.number(x0) + " " + Svg.number(y) + "H" + Svg.number(x1);
    }

    private void along(Wire wire, Layout.Run part) {
        Run run = runs.get(part.branch());
        if (run == null) return;
        double a = x(run, wire, part.fromMetres());
        double b = x(run, wire, part.toMetres());
        double from = Math.min(a, b);
        along.computeIfAbsent(part.branch(), k -> new ArrayList<>()).add(new double[] {from, Math.max(a, b)});
        if (from <= run.near.x && run.near.y != run.y)
            across.add("M" + Svg.number(from) + " " + Svg.number(run.y) + "V" + Svg.number(run.near.y));
    }

    /** A wire ends exactly at its own splice, even when others share the metre. */
    private double x(Run run, Wire wire, double metresAlong) {
        double out = run.limb.out(metresAlong);
        Optional<Mark> splice = run.marks.stream()
                .filter(m -> m.tag.part.shape() == Shape.SPLICE && Math.abs(m.metres - out) < 1e-9)
                .filter(m ->
                        m.tag.part.id().equals(wire.from()) || m.tag.part.id().equals(wire.to()))
                .findFirst();
        return splice.map(m -> run.near.x + m.offset).orElseGet(() -> run.x(out));
    }

    private void end(String point) {
        String owner = Names.connectorOf(point);
        Row row = rows.get(owner);
        if (row == null) return;
        Knot knot = knots.get(owner);
        double x = row.tags.get(0).x;
        if (x < knot.x) x = row.right();
        across.add("M" + Svg.number(knot.x) + " " + Svg.number(knot.y)
                + (row.y == knot.y ? "" : "V" + Svg.number(row.y)) + "H" + Svg.number(x));
    }

    private static List<double[]> merged(List<double[]> parts) {
        List<double[]> sorted = new ArrayList<>(parts);
        sorted.sort(Comparator.comparingDouble(p -> p[0]));
        List<double[]> out = new ArrayList<>();
        for (double[] p : sorted) {
            double[] last = out.isEmpty() ? null : out.get(out.size() - 1);
            if (last != null && p[0] <= last[1] + 0.05) last[1] = Math.max(last[1], p[1]);
            else out.add(p.clone());
        }
        return out;
    }
}
