package loomcase.draw;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** The map of answers, read back by the JDK's XML parser. */
class MapSvgTest {
    private static final List<List<Boolean>> NO_DOTS =
            List.of(List.of(false, false, true), List.of(false, false, false));

    private static MapSvg.Content content(List<List<String>> cells) {
        return new MapSvg.Content(
                "A & B",
                "<subtitle>",
                "across",
                "up",
                List.of("1", "2", "3"),
                List.of("60", "120"),
                List.of("small", "large"),
                cells,
                NO_DOTS,
                "dot",
                0,
                1,
                "this case");
    }

    private static NodeList elements(String svg, String name) throws Exception {
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)))
                .getElementsByTagName(name);
    }

    @Test
    void everyCellStandsOnceAndEveryAnswerIsNamed() throws Exception {
        String svg =
                MapSvg.draw(content(List.of(List.of("small", "small", "large"), List.of("small", "large", "large"))));
        NodeList rects = elements(svg, "rect");
        int cells = 0;
        int hatched = 0;
        for (int i = 0; i < rects.getLength(); i++) {
            Element e = (Element) rects.item(i);
            if (!e.getAttribute("width").equals("46")) continue;
            cells++;
            if (e.getAttribute("fill").startsWith("url(")) hatched++;
        }
        assertEquals(6, cells);
        assertEquals(3, hatched, "large is hatched, so the map reads without colour");
        NodeList texts = elements(svg, "text");
        StringBuilder all = new StringBuilder();
        for (int i = 0; i < texts.getLength(); i++)
            all.append(texts.item(i).getTextContent()).append('|');
        for (String word : List.of("A & B", "<subtitle>", "small", "large", "this case", "60", "120", "● dot"))
            assertTrue(all.toString().contains(word + "|"), word + " in " + all);
        assertEquals(
                svg,
                MapSvg.draw(content(List.of(List.of("small", "small", "large"), List.of("small", "large", "large")))));
    }

    @Test
    void cellsThatDoNotFitAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> content(List.of(List.of("small"), List.of("small"))));
    }
}
