package loomcase.draw;

import java.util.ArrayList;
import java.util.List;
import loomcase.draw.Loom.Junction;
import loomcase.draw.Loom.Leaf;
import loomcase.draw.Loom.Limb;
import loomcase.draw.Loom.Part;
import loomcase.draw.Loom.Shape;
import loomcase.draw.Loom.Stop;
import loomcase.model.Circuit;
import loomcase.model.Layout;

/**
 * The harness as a tree of text lines for a terminal, at most {@value #WIDTH} columns wide.
 *
 * <p>One line a branch, then what sits on it, then what hangs on its far junction. A suspected place ends in its mark
 * number, a bar of ten cells and a percentage. What is not suspected is folded: {@code … 7 more places, none suspected}. A
 * wire or cavity appears only when suspected; a place counts once. When nothing is suspected nothing is folded.
 *
 * <p>Columns are counted one a character, so labels in double-width scripts come out too wide.
 */
public final class HarnessTree {
    /** Widest line in columns. */
    public static final int WIDTH = 100;

    private static final int BAR = 10;
    private static final int TAIL = 4 + 1 + BAR + 1 + 5;

    private final Suspicion suspicion;
    private final Strokes strokes;
    private final boolean folding;
    private final StringBuilder out = new StringBuilder();

    /** The characters that lines are made of. */
    private record Strokes(String tee, String corner, String bar, String gap, String more, String full, String empty) {
        static final Strokes UNICODE = new Strokes("├─ ", "└─ ", "│  ", "   ", "…", "█", "░");
        static final Strokes ASCII = new Strokes("+- ", "`- ", "|  ", "   ", "...", "#", ".");
    }

    /** A line with the places it stands for and the lines below it; {@code kept} lines are never folded. */
    private record Line(String text, List<Part> parts, List<Line> below, boolean kept) {
        Line(String text, List<Part> parts, List<Line> below) {
            this(text, parts, below, false);
        }
    }

    private HarnessTree(Suspicion suspicion, boolean ascii, boolean folding) {
        this.suspicion = suspicion;
        this.strokes = ascii ? Strokes.ASCII : Strokes.UNICODE;
        this.folding = folding;
    }

    /**
     * Draws, ending in a newline.
     *
     * @param circuit the harness
     * @param layout its layout, made from the same circuit
     * @param suspicion what to lay over it; its trace is not drawn
     * @param ascii whether lines and bars are ASCII; labels keep their own characters
     * @throws IllegalArgumentException when the suspicion names a place or wire that the circuit does not have
     */
    public static String draw(Circuit circuit, Layout layout, Suspicion suspicion, boolean ascii) {
        Loom loom = LoomBuilder.build(circuit, layout, suspicion);
        boolean any = suspicion.shares().keySet().stream().anyMatch(suspicion::shows)
                || !suspicion.marks().isEmpty();
        HarnessTree t = new HarnessTree(suspicion, ascii, any);
        t.write(circuit, loom);
        return t.out.toString();
    }

    private void write(Circuit circuit, Loom loom) {
        Part unit = new Part(
                java.util.Optional.of(circuit.controlUnit().place()),
                Shape.PLUG,
                circuit.controlUnit().id(),
                circuit.controlUnit().label());
        List<Line> below = new ArrayList<>();
        for (Part p : loom.engine()) below.add(new Line("engine: " + p.label(), List.of(p), List.of()));
        for (List<Part> plug : loom.unitPlugs())
            below.add(leaf(new Leaf(plug, plug.get(0).label())));
        below.addAll(hanging(loom.trees().get(0)));
        print("", "", new Line(unit.id() + " " + unit.label(), List.of(unit), List.of()));
        children("", below);
        for (Junction j : loom.trees().subList(1, loom.trees().size())) {
            print("", "", new Line("junction " + j.id() + ", not joined by a branch", List.of(), List.of()));
            children("", hanging(j));
        }
    }

    private List<Line> hanging(Junction j) {
        List<Line> out = new ArrayList<>();
        for (Leaf l : j.leaves()) out.add(leaf(l));
        for (Limb l : j.limbs()) out.add(limb(l));
        return out;
    }

    private Line limb(Limb l) {
        String id = l.branch().id();
        Part part = Part.of(
                loomcase.model.PlaceId.Kind.BRANCH, Shape.BRANCH, id, l.branch().label());
        List<Line> below = new ArrayList<>();
        for (Stop s : l.stops()) {
            boolean rub = s.part().shape() == Shape.RUB;
            String text = kind(s.part()) + s.part().id() + " " + s.part().label();
            below.add(new Line(text, rub ? List.of() : List.of(s.part()), List.of(), rub && shown(part)));
        }
        below.addAll(hanging(l.far()));
        String wires = l.wires() + (l.wires() == 1 ? " wire" : " wires");
        return new Line("branch " + id + " " + l.branch().label() + ", " + wires, List.of(part), below);
    }

    /** A row; a suspected part comes first, and when there are several each gets a line of its own below. */
    private Line leaf(Leaf l) {
        StringBuilder text = new StringBuilder();
        List<Part> parts = new ArrayList<>();
        List<Line> cells = new ArrayList<>();
        List<Part> suspects = l.parts().stream()
                .filter(p -> p.shape() != Shape.CELL && shown(p))
                .toList();
        for (Part p : l.parts()) {
            if (p.shape() == Shape.CELL) {
                cells.add(new Line("cavity " + p.place().get().id(), List.of(p), List.of()));
                continue;
            }
            text.append(text.length() == 0 ? "" : " - ").append(kind(p)).append(p.id());
            if (p.place().isPresent()) parts.add(p);
        }
        text.append(' ').append(l.words());
        if (suspects.isEmpty()) return new Line(text.toString(), parts, cells);
        if (suspects.size() == 1 && parts.size() > 1) return new Line(first(suspects.get(0), parts), parts, cells);
        if (suspects.size() == 1) return new Line(text.toString(), parts, cells);
        List<Line> below = new ArrayList<>();
        for (Part p : suspects) below.add(new Line(p.place().get() + " " + p.label(), List.of(p), List.of()));
        below.addAll(cells);
        parts.removeIf(this::shown);
        return new Line(text.toString(), parts, below);
    }

    private static String first(Part suspect, List<Part> all) {
        StringBuilder rest = new StringBuilder();
        for (Part p : all)
            if (p != suspect)
                rest.append(rest.length() == 0 ? "" : ", ").append(kind(p)).append(p.id());
        return kind(suspect) + suspect.id() + " " + suspect.label() + " (" + rest + ")";
    }

    private static String kind(Part p) {
        if (p.shape() == Shape.PLUG) return "plug ";
        return p.place().map(place -> place.kind().word() + " ").orElse("rub point ");
    }

    private boolean shown(Part p) {
        return p.place().filter(suspicion::shows).isPresent();
    }

    private boolean interesting(Line line) {
        return !folding
                || line.kept()
                || line.parts().stream().anyMatch(this::shown)
                || line.below().stream().anyMatch(this::interesting);
    }

    /** Places in a line and below it. */
    private static int places(Line line) {
        return line.parts().size()
                + line.below().stream().mapToInt(HarnessTree::places).sum();
    }

    private void children(String indent, List<Line> lines) {
        List<Line> open = lines.stream().filter(this::interesting).toList();
        int folded = lines.stream()
                .filter(l -> !interesting(l))
                .mapToInt(HarnessTree::places)
                .sum();
        for (int i = 0; i < open.size(); i++) {
            boolean last = i == open.size() - 1 && folded == 0;
            print(indent, last ? strokes.corner() : strokes.tee(), open.get(i));
            children(
                    indent + (last ? strokes.gap() : strokes.bar()), open.get(i).below());
        }
        if (folded == 0) return;
        String words = folded + (folded == 1 ? " more place, not suspected" : " more places, none suspected");
        line(indent + strokes.corner() + strokes.more() + " " + words, "");
    }

    private void print(String indent, String stroke, Line line) {
        String tail = line.parts().stream()
                .filter(this::shown)
                .findFirst()
                .map(this::tail)
                .orElse("");
        line(indent + stroke + line.text(), tail);
    }

    /** Mark number, bar and percentage, always {@value #TAIL} columns. */
    private String tail(Part p) {
        double share = suspicion.of(p.place().get());
        String number =
                suspicion.mark(p.place().get()).map(m -> "(" + m.rank() + ")").orElse("");
        int cells = share <= 0 ? 0 : (int) Math.max(1, Math.round(share * BAR));
        String percent = Suspicion.percent(share);
        return " ".repeat(Math.max(0, 4 - number.length())) + number + " "
                + strokes.full().repeat(cells) + strokes.empty().repeat(BAR - cells)
                + " ".repeat(Math.max(1, 6 - percent.length())) + percent;
    }

    private void line(String left, String right) {
        String text = left.replaceAll("\\p{Cntrl}", " ");
        int room = right.isEmpty() ? WIDTH : WIDTH - TAIL - 1;
        if (text.codePointCount(0, text.length()) > room) {
            String more = strokes.more();
            text = text.substring(0, text.offsetByCodePoints(0, room - more.length()))
                            .stripTrailing()
                    + more;
        }
        out.append(text);
        if (!right.isEmpty())
            out.append(" ".repeat(Math.max(0, room - text.codePointCount(0, text.length()))))
                    .append(' ')
                    .append(right);
        out.append('\n');
    }
}
