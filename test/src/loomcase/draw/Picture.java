package loomcase.draw;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** A drawn SVG read back through the XML parser of the JDK: its texts as boxes, its lines as segments. */
final class Picture {
    /** Text with the room it takes; ascent and descent of 0.76 and 0.24 of the size (lower than capitals, DejaVu Sans). */
    record Box(String text, double left, double top, double right, double bottom) {
        boolean overlaps(double l, double t, double r, double b) {
            return left < r - 0.2 && l < right - 0.2 && top < b - 0.2 && t < bottom - 0.2;
        }
    }

    record Segment(double x0, double y0, double x1, double y1, double half) {}

    private static final Pattern STEP = Pattern.compile("([MVH])(-?[0-9.]+)(?: (-?[0-9.]+))?");

    final Element root;

    Picture(String svg) {
        try {
            DocumentBuilderFactory f = DocumentBuilderFactory.newInstance();
            f.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
            f.setNamespaceAware(true);
            var builder = f.newDocumentBuilder();
            builder.setErrorHandler(null);
            root = builder.parse(new InputSource(new StringReader(svg))).getDocumentElement();
        } catch (Exception e) {
            throw new AssertionError("not well-formed: " + e.getMessage(), e);
        }
    }

    List<Element> all(String name) {
        NodeList found = root.getElementsByTagName(name);
        List<Element> out = new ArrayList<>();
        for (int i = 0; i < found.getLength(); i++) out.add((Element) found.item(i));
        return out;
    }

    /** Values of an attribute, in document order. */
    List<String> values(String attribute) {
        return all("g").stream()
                .filter(g -> g.hasAttribute(attribute))
                .map(g -> g.getAttribute(attribute))
                .toList();
    }

    double number(String attribute) {
        return Double.parseDouble(root.getAttribute(attribute));
    }

    List<Box> boxes() {
        List<Box> out = new ArrayList<>();
        for (Element t : all("text")) {
            double size = t.hasAttribute("font-size") ? Double.parseDouble(t.getAttribute("font-size")) : Sketch.FONT;
            double x = Double.parseDouble(t.getAttribute("x"));
            double y = Double.parseDouble(t.getAttribute("y"));
            boolean bold = t.getAttribute("font-weight").equals("bold");
            double width = Lettering.width(t.getTextContent(), size, bold);
            out.add(new Box(t.getTextContent(), x, y - 0.76 * size, x + width, y + 0.24 * size));
        }
        return out;
    }

    /** Texts that overlap another or leave the page, one line each. */
    List<String> clashes() {
        List<String> out = new ArrayList<>();
        List<Box> boxes = boxes();
        for (int i = 0; i < boxes.size(); i++) {
            Box a = boxes.get(i);
            if (a.left < 0 || a.top < 0 || a.right > number("width") || a.bottom > number("height"))
                out.add("off the page: " + a);
            for (Box b : boxes.subList(i + 1, boxes.size()))
                if (a.overlaps(b.left, b.top, b.right, b.bottom)) out.add(a + " over " + b);
        }
        for (Segment s : segments())
            for (Box b : boxes)
                if (b.overlaps(
                        Math.min(s.x0, s.x1) - (s.y0 == s.y1 ? 0 : s.half),
                        Math.min(s.y0, s.y1) - (s.x0 == s.x1 ? 0 : s.half),
                        Math.max(s.x0, s.x1) + (s.y0 == s.y1 ? 0 : s.half),
                        Math.max(s.y0, s.y1) + (s.x0 == s.x1 ? 0 : s.half))) out.add(b + " under line " + s);
        return out;
    }

    /** Pieces of branches, thin lines to rows, and leader lines; not the lines inside a row or the legend. */
    List<Segment> segments() {
        List<Segment> out = new ArrayList<>();
        for (Element p : all("path")) {
            Node parent = p.getParentNode();
            String place = ((Element) parent).getAttribute("data-place");
            boolean stub = parent == root && !p.getAttribute("stroke").equals(Ink.QUIET);
            boolean stop = place.startsWith("splice") && p.getAttribute("d").contains("V");
            if (stub || stop || place.startsWith("branch") || ((Element) parent).hasAttribute("data-trace"))
                out.addAll(segments(p.getAttribute("d"), Double.parseDouble(p.getAttribute("stroke-width")) / 2));
        }
        return out;
    }

    private static List<Segment> segments(String d, double half) {
        List<Segment> out = new ArrayList<>();
        Matcher m = STEP.matcher(d);
        double x = 0;
        double y = 0;
        while (m.find()) {
            double v = Double.parseDouble(m.group(2));
            double x1 = m.group(1).equals("V") ? x : v;
            double y1 = m.group(1).equals("M")
                    ? Double.parseDouble(m.group(3))
                    : m.group(1).equals("V") ? v : y;
            if (!m.group(1).equals("M")) out.add(new Segment(x, y, x1, y1, half));
            x = x1;
            y = y1;
        }
        return out;
    }
}
