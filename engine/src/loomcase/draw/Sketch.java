package loomcase.draw;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.draw.Loom.Junction;
import loomcase.draw.Loom.Leaf;
import loomcase.draw.Loom.Limb;
import loomcase.draw.Loom.Part;
import loomcase.draw.Loom.Shape;

/** The pieces of the drawing with the room they take; {@link Placer} gives them their coordinates, in pixels. */
final class Sketch {
    static final double FONT = 12;
    static final double DISC = 9;
    /** Width of a callout disc with the gap behind it. */
    static final double CALL = 2 * DISC + 5;
    /** Height of a line of labels below a branch. */
    static final double LINE = 16;

    private static final double LONGEST_ID = 130;

    private Sketch() {}

    /** A part set in a row or below a branch: its text and width, callout disc included. */
    static final class Tag {
        final Part part;
        final String text;
        final boolean called;
        final double width;
        double x;

        Tag(Part part, Suspicion suspicion) {
            this.part = part;
            this.called = part.place().flatMap(suspicion::mark).isPresent();
            String id = Lettering.fit(part.id(), LONGEST_ID, FONT, true);
            boolean shown = part.place().filter(suspicion::shows).isPresent();
            this.text = shown
                    ? id + " " + Suspicion.percent(suspicion.of(part.place().get()))
                    : id;
            this.width = head() + padding(part.shape());
        }

        /** Width of disc and text together. */
        double head() {
            return (called ? CALL : 0) + Lettering.width(text, FONT, true);
        }

        private static double padding(Shape shape) {
            switch (shape) {
                case PLUG:
                    return 14;
                case CELL:
                    return 10;
                case DEVICE:
                case FUSE:
                    return 20;
                case GROUND:
                case WIRE:
                case BRANCH:
                    return 24;
                case SPLICE:
                case RUB:
                    return 18;
                case ENGINE:
                    return 0;
            }
            throw new IllegalStateException("unknown shape " + shape);
        }
    }

    /** A leaf: tags in line and words behind them. */
    static final class Row {
        final Leaf leaf;
        final List<Tag> tags = new ArrayList<>();
        /** One plug with one device, neither suspected: such rows are set in columns. */
        final boolean ordinary;

        double y;
        double wordsX;
        String words = "";

        Row(Leaf leaf, Suspicion suspicion) {
            this.leaf = leaf;
            leaf.parts().forEach(p -> tags.add(new Tag(p, suspicion)));
            this.ordinary = tags.size() == 2
                    && tags.get(1).part.shape() == Shape.DEVICE
                    && leaf.parts().stream()
                            .noneMatch(p -> suspicion.shows(p.place().get()));
        }

        /** Sets the tags from {@code x} on and returns where the words begin. */
        double set(double x) {
            return set(x, 0, 0);
        }

        /** The same, but the second tag no nearer than {@code second} and the words no nearer than {@code words}. */
        double set(double x, double second, double words) {
            double at = x;
            for (int i = 0; i < tags.size(); i++) {
                Tag t = tags.get(i);
                if (i > 0 && t.part.shape() != Shape.CELL) at = Math.max(at + 5, i == 1 ? second : 0);
                t.x = at;
                at += t.width;
            }
            wordsX = Math.max(at + 6, words);
            return wordsX;
        }

        double right() {
            return wordsX + Lettering.width(words, FONT, false);
        }
    }

    /** A stop on a branch: where it sits and in which line below the branch its label stands. */
    static final class Mark {
        final Tag tag;
        final double metres;
        double offset;
        int line;

        Mark(Loom.Stop stop, Suspicion suspicion) {
            this.tag = new Tag(stop.part(), suspicion);
            this.metres = stop.metres();
        }

        /** Half the width of the label. */
        double half() {
            return tag.head() / 2;
        }
    }

    /** A branch from its near to its far knot, straight at height {@code y}. */
    static final class Run {
        final Limb limb;
        final Tag tag;
        final List<Mark> marks = new ArrayList<>();
        final Knot far;
        final double thickness;
        /** Width of the rails on both sides, 0 for none. */
        final double rails;

        Knot near;
        double length;
        double y;
        int lines;
        String words = "";

        Run(Limb limb, Suspicion suspicion, Knot far, double thickness) {
            this.limb = limb;
            this.far = far;
            this.thickness = thickness;
            this.tag = new Tag(
                    Part.of(
                            loomcase.model.PlaceId.Kind.BRANCH,
                            Shape.BRANCH,
                            limb.branch().id(),
                            limb.branch().label()),
                    suspicion);
            boolean shown = tag.part.place().filter(suspicion::shows).isPresent();
            this.rails = shown ? Ink.weight(suspicion.of(tag.part.place().get())) : 0;
            limb.stops().forEach(s -> marks.add(new Mark(s, suspicion)));
        }

        /** Half the height of the branch with the rails of a suspected one. */
        double half() {
            return thickness / 2 + (rails > 0 ? 2 + rails : 0);
        }

        /** Room above the middle of the branch. */
        double above() {
            return half() + 7 + (tag.called ? 2 * DISC : FONT + 2);
        }

        /** Room below the middle of the branch. */
        double below() {
            return marks.isEmpty() ? half() + 5 : half() + 9 + lines * LINE;
        }

        /** Where a distance from the near end lies, going evenly between one stop and the next. */
        double x(double metres) {
            double m0 = 0;
            double x0 = 0;
            for (Mark m : marks) {
                if (metres <= m.metres) return near.x + between(metres, m0, m.metres, x0, m.offset);
                m0 = m.metres;
                x0 = m.offset;
            }
            return near.x + between(metres, m0, limb.branch().metres(), x0, length);
        }

        private static double between(double m, double m0, double m1, double x0, double x1) {
            return m1 <= m0 ? x1 : x0 + (x1 - x0) * Math.min(1, (m - m0) / (m1 - m0));
        }
    }

    /** A junction. */
    static final class Knot {
        final Junction junction;
        final List<Row> rows = new ArrayList<>();
        final List<Run> runs = new ArrayList<>();
        Optional<Run> main = Optional.empty();
        double x;
        double y;

        Knot(Junction junction) {
            this.junction = junction;
        }
    }
}
