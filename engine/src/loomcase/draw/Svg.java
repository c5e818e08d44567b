package loomcase.draw;

/** Writes SVG elements; every text and attribute value is escaped here and nowhere else. */
final class Svg {
    private final StringBuilder out = new StringBuilder(1 << 16);

    /** Opens an element; attributes are name, value, name, value …, numbers rounded to tenths. */
    Svg open(String name, Object... attributes) {
        tag(name, attributes).append(">");
        return this;
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
        escape(text);
        return close(name);
    }

    private StringBuilder tag(String name, Object... attributes) {
        out.append('<').append(name);
        for (int i = 0; i < attributes.length; i += 2) {
            out.append(' ').append(attributes[i]).append("=\"");
            if (attributes[i + 1] instanceof Number n) out.append(number(n.doubleValue()));
            else escape(attributes[i + 1].toString());
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

    private void escape(String text) {
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&':
                    out.append("&amp;");
                    break;
                case '<':
                    out.append("&lt;");
                    break;
                case '>':
                    out.append("&gt;");
                    break;
                case '"':
                    out.append("&quot;");
                    break;
                case '\'':
                    out.append("&#39;");
                    break;
                default:
                    out.appendCodePoint(allowed(c) ? c : 0xFFFD);
            }
        });
    }

    /** Characters that XML 1.0 (section 2.2) allows in a document. */
    private static boolean allowed(int c) {
        return c == '\t'
                || c == '\n'
                || c == '\r'
                || c >= 0x20 && c <= 0xD7FF
                || c >= 0xE000 && c <= 0xFFFD
                || c >= 0x10000;
    }

    @Override
    public String toString() {
        return out.toString();
    }
}
