package loomcase.draw;

import java.util.ArrayList;
import java.util.List;
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
     * @return the outline of the tree
     */
    Skyline pack(Knot knot) {
        List<Item> items = order(knot);
        List<Skyline> outlines = new ArrayList<>();
        double[] y = new double[items.size()];
        Skyline all = new Skyline();
        for (int i = 0; i < y.length; i++) {
            Skyline one = outline(knot, items.get(i));
            outlines.add(one);
            y[i] = i == 0 ? 0 : all.below(one) + GAP;
            all.add(one, y[i]);
        }
        double zero = y.length == 0 ? 0 : y[straight(items)];
        Skyline out = new Skyline();
        out.add(knot.x - 6, knot.x + 6, -9, 9);
        for (int i = 0; i < y.length; i++) {
            double dy = y[i] - zero;
            out.add(outlines.get(i), dy);
            out.add(knot.x - 6, knot.x + 6, Math.min(0, dy), Math.max(0, dy));
            items.get(i).row().ifPresent(r -> r.y = dy);
            items.get(i).run().ifPresent(r -> r.y = dy);
        }
        return out;
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
            s.add(pack(r.far), 0);
        });
        return s;
    }

    /** Half the side branches, the main branch, the rows, the other half: top to bottom. */
    private static List<Item> order(Knot knot) {
        List<Item> upper = new ArrayList<>();
        List<Item> lower = new ArrayList<>();
        List<Run> sides = new ArrayList<>(knot.runs);
        knot.main.ifPresent(sides::remove);
        for (int i = 0; i < sides.size(); i++)
            (i < (sides.size() + 1) / 2 ? upper : lower).add(new Item(Optional.empty(), Optional.of(sides.get(i))));
        List<Item> out = new ArrayList<>(upper);
        knot.main.ifPresent(m -> out.add(new Item(Optional.empty(), knot.main)));
        for (Row row : knot.rows) out.add(new Item(Optional.of(row), Optional.empty()));
        out.addAll(lower);
        return out;
    }

    private static int straight(List<Item> items) {
        for (int i = 0; i < items.size(); i++)
            if (items.get(i).run().isPresent()
                    && items.get(i).run().get().near.main.equals(items.get(i).run())) return i;
        return items.size() / 2;
    }
}
