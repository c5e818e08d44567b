package loomcase.draw;

import java.util.List;
import loomcase.draw.Sketch.Knot;
import loomcase.draw.Sketch.Mark;
import loomcase.draw.Sketch.Row;
import loomcase.draw.Sketch.Run;

/**
 * Gives every knot its x: first as narrow as the level of tightness allows, then wider where there is room.
 *
 * <p>Cost: linear in parts times the depth of the tree.
 */
final class Spacing {
    /** Words behind a row may take this much at each level of tightness, pixels. */
    private static final double[] WORDS = {300, 230, 160, 80, 0};

    private static final double[] HEAD = {150, 110, 80, 60, 0};
    /** Clear of the upright parts of branches at both ends, rails included. */
    private static final double HEAD_EDGES = 32;

    private static final double STUB = 18;
    private static final double LONGEST_WORDS = 420;
    private static final double END = 18;

    private final double right;
    private final int level;

    private Spacing(double right, int level) {
        this.right = right;
        this.level = level;
    }

    /** Sets the x of a tree whose root knot has one, and returns how far right it reaches. */
    static double spread(Knot root, double right) {
        for (int level = 0; level < WORDS.length; level++) {
            Spacing s = new Spacing(right, level);
            s.narrow(root);
            if (root.x + s.reach(root) <= right || level == WORDS.length - 1) {
                s.widen(root);
                return s.finish(root);
            }
        }
        throw new IllegalStateException("no level of tightness");
    }

    private void narrow(Knot knot) {
        for (Run r : knot.runs) {
            r.length = need(r, level == 0 ? 1 : 2, words(r));
            narrow(r.far);
        }
    }

    /** A suspected branch keeps its words longer than others. */
    private double words(Run r) {
        return r.rails > 0 && level < HEAD.length - 1 ? r.tag.head() + Math.max(HEAD[level], 120) : HEAD[level];
    }

    /** Length a run needs when labels stand in so many lines and its words get so much room. */
    private static double need(Run r, int lines, double words) {
        double full = r.tag.head() + 6 + Lettering.width(r.limb.branch().label(), Sketch.FONT, r.rails > 0);
        double head = Math.min(full, Math.max(words, r.tag.head())) + HEAD_EDGES;
        return Math.max(Math.max(head, 40), offsets(r.marks, lines, r) + END);
    }

    /** Places the stops as near as their labels allow and returns the offset that the last label ends at. */
    private static double offsets(List<Mark> marks, int lines, Run r) {
        double end = 0;
        for (int i = 0; i < marks.size(); i++) {
            Mark m = marks.get(i);
            m.line = i % lines;
            double at = m.half() + END;
            for (int k = 0; k < i; k++) {
                Mark before = marks.get(k);
                double apart = m.line == before.line ? before.half() + m.half() + 10 : 18;
                if (m.line > before.line) apart = Math.max(apart, before.half() + 6);
                if (m.line < before.line) apart = Math.max(apart, m.half() + 6);
                at = Math.max(at, before.offset + apart);
            }
            m.offset = at;
            end = Math.max(end, at + m.half());
        }
        r.lines = Math.min(lines, marks.size());
        return end;
    }

    /** How far a knot's subtree reaches beyond the knot. */
    private double reach(Knot knot) {
        double far = 12;
        columns(knot, STUB);
        for (Row row : knot.rows)
            far = Math.max(
                    far, row.wordsX + Math.min(WORDS[level], Lettering.width(row.leaf.words(), Sketch.FONT, false)));
        for (Run r : knot.runs) far = Math.max(far, r.length + reach(r.far));
        return far;
    }

    /** Sets the rows of a knot from {@code x} on, devices and words of unsuspected rows below each other. */
    private static void columns(Knot knot, double x) {
        double second = 0;
        double words = 0;
        for (Row row : knot.rows) {
            row.set(x);
            if (row.ordinary) second = Math.max(second, row.tags.get(1).x);
        }
        for (Row row : knot.rows) if (row.ordinary) words = Math.max(words, row.set(x, second, 0));
        for (Row row : knot.rows) if (row.ordinary || row.tags.size() == 2) row.set(x, second, words);
    }

    /** Shares the room that is left among the branches of a path, each by what it still wants. */
    private void widen(Knot knot) {
        for (Run r : knot.runs) {
            double room = Math.max(0, right - knot.x - r.length - reach(r.far));
            double want = excess(r);
            double later = excess(r.far);
            double tight = r.length;
            r.length = tight + (want <= 0 ? 0 : Math.min(want, room * want / (want + later)));
            if (need(r, 1, words(r)) > r.length) need(r, level == 0 ? 1 : 2, words(r));
            even(r);
            r.far.x = knot.x + r.length;
            widen(r.far);
        }
    }

    private static double excess(Run r) {
        return Math.max(0, need(r, 1, Double.MAX_VALUE) - r.length);
    }

    private static double excess(Knot knot) {
        double most = 0;
        for (Run r : knot.runs) most = Math.max(most, excess(r) + excess(r.far));
        return most;
    }

    /** Spreads the stops over a run that is longer than they need. */
    private static void even(Run r) {
        if (r.marks.isEmpty()) return;
        double end = 0;
        for (Mark m : r.marks) end = Math.max(end, m.offset + m.half());
        double spare = Math.max(0, r.length - END - end);
        for (int i = 0; i < r.marks.size(); i++) r.marks.get(i).offset += spare * (i + 1) / (r.marks.size() + 1);
    }

    private double finish(Knot knot) {
        double far = knot.x + 12;
        columns(knot, knot.x + STUB);
        for (Row row : knot.rows) {
            double room = Math.max(WORDS[level], Math.min(LONGEST_WORDS, right - row.wordsX));
            row.words = Lettering.fit(row.leaf.words(), room, Sketch.FONT, false);
            far = Math.max(far, row.right());
        }
        for (Run r : knot.runs) {
            r.words = Lettering.fit(
                    r.limb.branch().label(), r.length - r.tag.head() - (HEAD_EDGES + 5.9), Sketch.FONT, r.rails > 0);
            far = Math.max(far, finish(r.far));
        }
        return far;
    }
}
