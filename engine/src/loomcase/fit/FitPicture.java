package loomcase.fit;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import loomcase.draw.FacesSvg;
import loomcase.draw.FacesSvg.Cavity;
import loomcase.draw.FacesSvg.Face;
import loomcase.draw.FacesSvg.Mark;

/** The two mating faces of a plug, old and new, as a picture. */
public final class FitPicture {
    private FitPicture() {}

    /** One SVG document for a matched plug. */
    public static String svg(FitResult.PlugMatch m) {
        return FacesSvg.draw(face("Old plug ", m.old(), old(m)), face("New plug ", m.neu(), neu(m)));
    }

    private static Face face(String which, FitResult.Face f, List<List<Cavity>> rows) {
        List<String> lines = new ArrayList<>();
        if (!f.label().isEmpty()) lines.add(f.label());
        List<String> shell = new ArrayList<>();
        if (!f.keying().isEmpty()) shell.add("keying " + f.keying());
        if (!f.colour().isEmpty()) shell.add(f.colour());
        if (!f.latch().isEmpty()) shell.add("latch: " + f.latch());
        lines.add(shell.isEmpty() ? "shell not known" : String.join(" · ", shell));
        return new Face(which + f.id() + ", mating face", lines, rows);
    }

    private static List<List<Cavity>> old(FitResult.PlugMatch m) {
        boolean whole = m.neu().carries().size() >= m.cavities().size()
                && !m.neu().carries().isEmpty();
        return m.old().rows().stream()
                .map(row -> row.stream()
                        .map(c -> {
                            String words = m.old().carries().getOrDefault(c, "empty");
                            String n = m.cavities().get(c);
                            if (!m.old().carries().containsKey(c)) return new Cavity(c, Mark.EMPTY, "", c + ": empty");
                            if (n == null
                                    && whole
                                    && m.neu().carries().containsKey(c)
                                    && !m.extra().contains(c))
                                return new Cavity(c, Mark.UNKNOWN, "?", c + ": " + words);
                            if (n == null) return new Cavity(c, Mark.ALONE, "only", c + ": " + words + ", old only");
                            return n.equals(c)
                                    ? new Cavity(c, Mark.SAME, "", c + ": " + words)
                                    : new Cavity(c, Mark.MOVED, "\u2190" + n, c + ": " + words + ", from new " + n);
                        })
                        .toList())
                .toList();
    }

    private static List<List<Cavity>> neu(FitResult.PlugMatch m) {
        Map<String, String> target = new HashMap<>();
        m.cavities().forEach((c, n) -> target.put(n, c));
        return m.neu().rows().stream()
                .map(row -> row.stream()
                        .map(n -> {
                            String words = m.neu().carries().getOrDefault(n, "empty");
                            if (!m.neu().carries().containsKey(n)) return new Cavity(n, Mark.EMPTY, "", n + ": empty");
                            String c = target.get(n);
                            if (m.extra().contains(n))
                                return new Cavity(n, Mark.ALONE, "only", n + ": " + words + ", new only");
                            if (c == null) return new Cavity(n, Mark.UNKNOWN, "?", n + ": " + words);
                            return c.equals(n)
                                    ? new Cavity(n, Mark.SAME, "", n + ": " + words)
                                    : new Cavity(n, Mark.MOVED, "\u2192" + c, n + ": " + words + ", goes to " + c);
                        })
                        .toList())
                .toList();
    }
}
