package loomcase.draw;

import loomcase.XmlText;

/** Writes SVG elements; every text and attribute value is escaped here. */
final class Svg {
    private final StringBuilder out = new StringBuilder(1 << 16);

    /** Opens an element; attributes are name, value, name, value …, numbers rounded to tenths. */
    Svg open(String name, Object... attributes) {
        tag(name, attributes).append(">");
        return this;
    }

    /**
     * Opens a picture on paper, named for a reader.
     *
     * @param width of the sheet, pixels at its own size
     * @param height of the sheet
     * @param title what it shows
     */
    Svg sheet(double width, double height, String title) {
        open(
                "svg",
                "xmlns",
                "http://www.w3.org/2000/svg",
                "role",
                "img",
                "viewBox",
                "0 0 " + number(width) + " " + number(height),
                "width",
                width,
                "height",
                height,
                "font-family",
                Ink.FACE,
                "font-size",
                Sketch.FONT);
        text("title", title);
        return add("rect", "width", width, "height", height, "fill", Ink.PAPER);
    }

    /** Closes an element. */
    Svg close(String name) {
        out.append("</").append(name).append(">\n");
        return this;
    }

    /** An element without content. */
    Svg add(String name, Object... attributes) {
        tag(name, attributes).append("/>\n");
        return this;
    }

    /** An element that holds only text. */
    Svg text(String name, String text, Object... attributes) {
        open(name, attributes);
        XmlText.append(out, text);
        return close(name);
    }

    private StringBuilder tag(String name, Object... attributes) {
        out.append('<').append(name);
        for (int i = 0; i < attributes.length; i += 2) {
            out.append(' ').append(attributes[i]).append("=\"");
            if (attributes[i + 1] instanceof Number n) out.append(number(n.doubleValue()));
            else XmlText.append(out, attributes[i + 1].toString());
            out.append('"');
        }
        return out;
    }

    /** A number with at most one decimal, the same on every machine. */
    static String number(double value) {
        long tenths = Math.round(value * 10);
        String whole = (tenths < 0 ? "-" : "") + Math.abs(tenths) / 10;
        long rest = Math.abs(tenths) % 10;
        return rest == 0 ? whole : whole + "." + rest;
    }

    @Override
    public String toString() {
        return out.toString();
    }
}
