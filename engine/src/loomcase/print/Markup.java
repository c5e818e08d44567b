package loomcase.print;

import java.util.ArrayDeque;
import java.util.Deque;
import loomcase.XmlText;

/** Writes elements that both an HTML and an XML parser read alike; text and attribute values are escaped here. */
final class Markup {
    private final StringBuilder out = new StringBuilder(1 << 16);
    private final Deque<String> open = new ArrayDeque<>();

    /** Opens an element; attributes are name, value, name, value …; one with an empty value is left out. */
    Markup open(String name, String... attributes) {
        tag(name, attributes).append('>');
        open.push(name);
        return this;
    }

    /** Closes the element opened last, whose name is given so that a slip fails at once. */
    Markup close(String name) {
        if (!open.pop().equals(name)) throw new IllegalStateException("close " + name);
        out.append("</").append(name).append('>');
        return this;
    }

    /** An element of a kind that never has content, such as {@code br}. */
    Markup empty(String name, String... attributes) {
        tag(name, attributes).append("/>");
        return this;
    }

    /** An element that holds only text. */
    Markup element(String name, String text, String... attributes) {
        return open(name, attributes).text(text).close(name);
    }

    Markup text(String text) {
        XmlText.append(out, text);
        return this;
    }

    /** A line end between elements, for who reads the source. */
    Markup line() {
        out.append('\n');
        return this;
    }

    /** Text that is markup already, such as a style sheet of ours. */
    Markup raw(String trusted) {
        out.append(trusted);
        return this;
    }

    private StringBuilder tag(String name, String... attributes) {
        out.append('<').append(name);
        for (int i = 0; i < attributes.length; i += 2) {
            if (attributes[i + 1].isEmpty()) continue;
            out.append(' ').append(attributes[i]).append("=\"");
            XmlText.append(out, attributes[i + 1]);
            out.append('"');
        }
        return out;
    }

    @Override
    public String toString() {
        if (!open.isEmpty()) throw new IllegalStateException("not closed: " + open);
        return out.toString();
    }
}
