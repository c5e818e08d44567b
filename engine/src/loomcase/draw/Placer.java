package loomcase.draw;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.draw.Loom.Junction;
import loomcase.draw.Loom.Leaf;
import loomcase.draw.Loom.Limb;
import loomcase.draw.Sketch.Knot;
import loomcase.draw.Sketch.Row;
import loomcase.draw.Sketch.Run;

/**
 * Lays a tree out: branches run to the right, each junction spreads its rows and branches over its height, and what is
 * laid out is packed by {@link Skyline}, so nothing crosses. The branch with most wires goes straight on.
 */
final class Placer {
    private static final double ROW_HALF = 10;
    private static final double GAP = 3;
    /** Half the width of the thickest branch with the widest rails. */
    private static final double BAR_HALF = 14;

    private static final int PLACES = 4;

    private final Suspicion suspicion;
    private final int mostWires;

    Placer(Suspicion suspicion, int mostWires) {
        this.suspicion = suspicion;
        this.mostWires = Math.max(1, mostWires);
    }

    /** Builds the pieces of a tree, without coordinates. */
    Knot knot(Junction junction) {
        Knot knot = new Knot(junction);
        for (Leaf leaf : junction.leaves()) knot.rows.add(new Row(leaf, suspicion));
        for (Limb limb : junction.limbs()) {
            Run run = new Run(limb, suspicion, knot(limb.far()), 3 + 11 * Math.sqrt((double) limb.wires() / mostWires));
            run.near = knot;
            knot.runs.add(run);
            if (knot.main.isEmpty() || limb.wires() > knot.main.get().limb.wires()) knot.main = Optional.of(run);
        }
        return knot;
    }

    /** Something that leaves a knot to the right at its own height. */
    private record Item(Optional<Row> row, Optional<Run> run) {}

    /**
     * Sets heights relative to the knot, which is left at 0.
     *
     * @param balanced whether to put the knot midway between its branches when two of them are big
     * @return the outline of the tree
     */
    Skyline pack(Knot knot, boolean balanced) {
        Map<Item, Skyline> outlines = new HashMap<>();
        for (Item item : items(knot)) outlines.put(item, outline(knot, item));
        Stack best = null;
        for (int place = 0; place < PLACES; place++) {
            Stack s = new Stack(order(knot, place), outlines);
            if (best == null || s.height() < best.height() - 0.5) best = s;
        }
        double zero = best.zero(knot, balanced);
        Skyline out = new Skyline();
        out.add(knot.x - 6, knot.x + 6, -9, 9);
        for (int i = 0; i < best.items.size(); i++) {
            Item item = best.items.get(i);
            double dy = best.y[i] - zero;
            out.add(outlines.get(item), dy);
            out.add(knot.x - BAR_HALF, knot.x + BAR_HALF, Math.min(0, dy), Math.max(0, dy));
            item.row().ifPresent(r -> r.y = dy);
            item.run().ifPresent(r -> r.y = dy);
        }
        return out;
    }

    /** Items stacked as tightly as their outlines allow, the first at 0. */
    private static final class Stack {
        final List<Item> items;
        final double[] y;
        private final Skyline all = new Skyline();

        Stack(List<Item> items, Map<Item, Skyline> outlines) {
            this.items = items;
            this.y = new double[items.size()];
            for (int i = 0; i < y.length; i++) {
                Skyline one = outlines.get(items.get(i));
                y[i] = i == 0 ? 0 : all.below(one) + GAP;
                all.add(one, y[i]);
            }
        }

        double height() {
            return items.isEmpty() ? 0 : all.lowest() - all.highest();
        }

        /** Height of the knot: level with its main branch, or with its middle row when it has no branch. */
        double zero(Knot knot, boolean balanced) {
            if (y.length == 0) return 0;
            double first = Double.NaN;
            double last = 0;
            double main = y[y.length / 2];
            for (int i = 0; i < y.length; i++) {
                Run run = items.get(i).run().orElse(null);
                if (run == null) continue;
                if (run == knot.main.get()) main = y[i];
                if (run.limb.wires() < 0.4 * knot.main.get().limb.wires()) continue;
                if (Double.isNaN(first)) first = y[i];
                last = y[i];
            }
            return balanced && first < last ? (first + last) / 2 : main;
        }
    }

    /** Turns relative heights into heights on the page. */
    void settle(Knot knot, double y) {
        knot.y = y;
        for (Row r : knot.rows) r.y += y;
        for (Run r : knot.runs) {
            r.y += y;
            settle(r.far, r.y);
        }
    }

    private Skyline outline(Knot knot, Item item) {
        Skyline s = new Skyline();
        item.row().ifPresent(r -> s.add(knot.x, r.right() + 4, -ROW_HALF, ROW_HALF));
        item.run().ifPresent(r -> {
            s.add(knot.x, r.far.x, -r.above(), r.below());
            s.add(pack(r.far, false), 0);
        });
        return s;
    }

    private static List<Item> items(Knot knot) {
        List<Item> out = new ArrayList<>();
        for (Row row : knot.rows) out.add(new Item(Optional.of(row), Optional.empty()));
        for (Run run : knot.runs) out.add(new Item(Optional.empty(), Optional.of(run)));
        return out;
    }

    /** Half the side branches, the main branch, the other half; the rows in one of {@value #PLACES} places between. */
    private static List<Item> order(Knot knot, int place) {
        List<Item> rows = new ArrayList<>();
        List<Item> sides = new ArrayList<>();
        List<Item> main = new ArrayList<>();
        for (Item item : items(knot)) {
            if (item.row().isPresent()) rows.add(item);
            else (item.run().equals(knot.main) ? main : sides).add(item);
        }
        int half = (sides.size() + 1) / 2;
        List<List<Item>> parts =
                new ArrayList<>(List.of(sides.subList(0, half), main, sides.subList(half, sides.size())));
        parts.add(List.of(2, 1, 0, 3).get(place), rows);
        return parts.stream().flatMap(List::stream).toList();
    }
}
