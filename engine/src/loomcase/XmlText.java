package loomcase;

/** Escapes text for XML and HTML; every page and picture passes its text through here. */
public final class XmlText {
    private XmlText() {}

    /**
     * Appends text so that it is content or a quoted attribute value, whatever it holds; characters that XML 1.0 (section
     * 2.2) does not allow become U+FFFD.
     */
    public static void append(StringBuilder to, String text) {
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&':
                    to.append("&amp;");
                    break;
                case '<':
                    to.append("&lt;");
                    break;
                case '>':
                    to.append("&gt;");
                    break;
                case '"':
                    to.append("&quot;");
                    break;
                case '\'':
                    to.append("&#39;");
                    break;
                default:
                    to.appendCodePoint(allowed(c) ? c : 0xFFFD);
            }
        });
    }

    private static boolean allowed(int c) {
        return c == '\t'
                || c == '\n'
                || c == '\r'
                || c >= 0x20 && c <= 0xD7FF
                || c >= 0xE000 && c <= 0xFFFD
                || c >= 0x10000;
    }
}
