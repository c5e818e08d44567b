package loomcase.draw;

import java.util.ArrayList;
import java.util.List;
import loomcase.draw.Loom.Leaf;
import loomcase.draw.Loom.Part;
import loomcase.draw.Sketch.Knot;
import loomcase.draw.Sketch.Row;
import loomcase.model.Circuit;

/** The whole page with coordinates in pixels: heading, key of suspects, control unit, trees, foot. */
final class Sheet {
    static final double WIDTH = 1600;
    static final double EDGE = 24;
    static final double KEY_LINE = 24;
    private static final double UNIT_WORDS = 110;
    private static final double UNIT_LINE = 16;
    private static final double PLUG_LINE = 24;
    private static final double ENGINE_LINE = 38;
    private static final double LEAST = 900;

    final List<Knot> roots = new ArrayList<>();
    final List<Row> unitRows = new ArrayList<>();
    final List<Row> engineRows = new ArrayList<>();
    final List<String> unitWords;
    final double unitWidth;
    final double unitHeight;
    final double width;
    /** Where the foot begins. */
    final double foot;

    double unitTop;

    Sheet(Circuit circuit, Loom loom, Suspicion suspicion) {
        for (List<Part> plug : loom.unitPlugs()) unitRows.add(new Row(new Leaf(plug, ""), suspicion));
        for (Part p : loom.engine()) engineRows.add(new Row(new Leaf(List.of(p), ""), suspicion));
        unitWords = Lettering.wrap(circuit.controlUnit().label(), UNIT_WORDS, Sketch.FONT, false, 3);
        boolean called = suspicion.mark(circuit.controlUnit().place()).isPresent();
        unitWidth = UNIT_WORDS + 28;
        unitHeight = Math.max(46 + (called ? 24 : 0) + unitWords.size() * UNIT_LINE, unitRows.size() * PLUG_LINE + 16);
        double plugs = 0;
        for (Row r : unitRows) plugs = Math.max(plugs, r.set(EDGE + unitWidth) - 6);
        double rootX = Math.max(plugs, EDGE + unitWidth) + 30;

        Placer placer = new Placer(suspicion, mostWires(loom.trees()));
        for (Loom.Junction j : loom.trees()) {
            Knot k = placer.knot(j);
            k.x = roots.isEmpty() ? rootX : EDGE + 8;
            roots.add(k);
        }
        double reach = LEAST - EDGE;
        for (Knot k : roots) reach = Math.max(reach, Spacing.spread(k, WIDTH - EDGE));
        width = reach + EDGE;
        foot = settle(placer, headHeight(suspicion));
    }

    private static int mostWires(List<Loom.Junction> trees) {
        int most = 0;
        for (Loom.Junction j : trees)
            for (Loom.Limb l : j.limbs()) most = Math.max(most, Math.max(l.wires(), mostWires(List.of(l.far()))));
        return most;
    }

    /** Height of title and key. */
    static double headHeight(Suspicion suspicion) {
        return 52 + suspicion.marks().size() * KEY_LINE + 14;
    }

    private double settle(Placer placer, double from) {
        double at = from;
        for (int i = 0; i < roots.size(); i++) {
            Skyline outline = placer.pack(roots.get(i), i == 0);
            double above = -outline.highest();
            double below = outline.lowest();
            if (i == 0) {
                above = Math.max(above, unitHeight / 2);
                below = Math.max(below, unitHeight / 2 + engineRows.size() * ENGINE_LINE + 12);
            } else at += 40;
            placer.settle(roots.get(i), at + above);
            if (i == 0) settleUnit(at + above);
            at += above + below;
        }
        return at + 22;
    }

    private void settleUnit(double y) {
        unitTop = y - unitHeight / 2;
        for (int i = 0; i < unitRows.size(); i++) unitRows.get(i).y = y + (i - (unitRows.size() - 1) / 2.0) * PLUG_LINE;
        for (int i = 0; i < engineRows.size(); i++) {
            engineRows.get(i).set(EDGE);
            engineRows.get(i).y = unitTop + unitHeight + 22 + i * ENGINE_LINE;
        }
    }
}
