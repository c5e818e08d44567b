package loomcase.print;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Attr;
import org.w3c.dom.Element;
import org.w3c.dom.NamedNodeMap;
import org.w3c.dom.Node;
import org.w3c.dom.Text;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/** A checked SVG drawing, and how it is put into a page without its ids meeting those of another. */
final class Drawing {
    private static final String SVG = "http://www.w3.org/2000/svg";

    private static final String REGULAR = "Loomcase Regular";
    private static final String BOLD = "Loomcase Bold";

    /** Width in px from which text of a drawing would be too small on an upright page. */
    private static final double WIDE = 1000;

    /** What a drawing may be made of (SVG 1.1); no script, no foreign content, no animation. */
    private static final Set<String> ELEMENTS = Set.of(
            "svg",
            "g",
            "defs",
            "symbol",
            "use",
            "title",
            "desc",
            "path",
            "rect",
            "circle",
            "ellipse",
            "line",
            "polyline",
            "polygon",
            "text",
            "tspan",
            "linearGradient",
            "radialGradient",
            "stop",
            "pattern",
            "clipPath",
            "marker");

    private final Element root;
    private final double width;
    private final double height;

    private Drawing(Element root) {
        this.root = root;
        String[] box = root.getAttribute("viewBox").trim().split("[\\s,]+");
        if (box.length != 4) throw new IllegalArgumentException("a drawing without a viewBox");
        this.width = Double.parseDouble(box[2]);
        this.height = Double.parseDouble(box[3]);
    }

    /** @throws IllegalArgumentException when the text is no self-contained SVG document */
    static void check(String svg) {
        of(svg);
    }

    static Drawing of(String svg) {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setNamespaceAware(true);
            factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
            factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
            var builder = factory.newDocumentBuilder();
            builder.setErrorHandler(null);
            Element root = builder.parse(new InputSource(new StringReader(svg))).getDocumentElement();
            if (!root.getLocalName().equals("svg")) throw new IllegalArgumentException("not an SVG document");
            allowed(root);
            return new Drawing(root);
        } catch (SAXException | IOException | ParserConfigurationException problem) {
            throw new IllegalArgumentException("not an SVG document: " + problem.getMessage(), problem);
        }
    }

    private static void allowed(Element element) {
        if (!SVG.equals(element.getNamespaceURI()) || !ELEMENTS.contains(element.getLocalName()))
            throw new IllegalArgumentException("a drawing with the element " + element.getNodeName());
        NamedNodeMap attributes = element.getAttributes();
        for (int i = 0; i < attributes.getLength(); i++) allowed(element, (Attr) attributes.item(i));
        for (Node n = element.getFirstChild(); n != null; n = n.getNextSibling())
            if (n instanceof Element child) allowed(child);
    }

    private static void allowed(Element element, Attr attribute) {
        String name = attribute.getName().toLowerCase(java.util.Locale.ROOT);
        String value = attribute.getValue();
        boolean runs = name.startsWith("on");
        boolean leaves = name.endsWith("href") && !value.startsWith("#");
        boolean fetches = value.replace("url(#", "").contains("url(") || value.contains("@import");
        if (runs || leaves || fetches)
            throw new IllegalArgumentException(
                    "a drawing with " + attribute + " on its element " + element.getNodeName());
    }

    /** Whether it must lie across the page for its text to be read: broad, and broader than high. */
    boolean wide() {
        return width > WIDE && width > 1.1 * height;
    }

    /**
     * The drawing as an element of a page, as wide as its surroundings.
     *
     * @param to where to write
     * @param prefix put before each id, so that ids stay unique in the page
     * @param alt what it shows
     * @param paper whether for {@link Pdf}, whose drawing library tells fonts apart by family but not by weight
     */
    void inline(Markup to, String prefix, String alt, boolean paper) {
        to.open(
                "svg",
                "xmlns",
                SVG,
                "role",
                "img",
                "alt",
                alt,
                "aria-label",
                alt,
                "viewBox",
                root.getAttribute("viewBox"),
                "width",
                whole(width),
                "height",
                whole(height),
                "font-family",
                paper ? REGULAR : root.getAttribute("font-family"),
                "font-size",
                root.getAttribute("font-size"));
        content(root, to, prefix, paper);
        to.close("svg");
    }

    private static String whole(double pixels) {
        return Long.toString(Math.round(pixels));
    }

    private static void content(Element from, Markup to, String prefix, boolean paper) {
        for (Node n = from.getFirstChild(); n != null; n = n.getNextSibling()) {
            if (n instanceof Element child) {
                to.open(child.getLocalName(), attributes(child, prefix, paper));
                content(child, to, prefix, paper);
                to.close(child.getLocalName());
            } else if (n instanceof Text text) {
                to.text(text.getData());
            }
        }
    }

    private static String[] attributes(Element of, String prefix, boolean paper) {
        NamedNodeMap all = of.getAttributes();
        List<String> out = new ArrayList<>();
        for (int i = 0; i < all.getLength(); i++) {
            Attr each = (Attr) all.item(i);
            String name = each.getName();
            if (name.startsWith("xmlns") || paper && name.equals("font-family")) continue;
            out.add(name);
            out.add(renamed(name, each.getValue(), prefix));
        }
        if (paper && of.getAttribute("font-weight").equals("bold")) out.addAll(List.of("font-family", BOLD));
        return out.toArray(String[]::new);
    }

    /** Ids and what refers to them: {@code id}, {@code href="#id"}, {@code url(#id)}, lists of ids for screen readers. */
    private static String renamed(String attribute, String value, String prefix) {
        if (attribute.equals("id")) return prefix + value;
        if (attribute.startsWith("aria-")) return prefix + value.trim().replaceAll("\\s+", " " + prefix);
        if (attribute.endsWith("href")) return "#" + prefix + value.substring(1);
        return value.replace("url(#", "url(#" + prefix);
    }
}
