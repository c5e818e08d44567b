package loomcase.draw;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

class WaysSvgTest {
    private static final WaysSvg.Group ONE = new WaysSvg.Group(
            "a <kind>",
            List.of(
                    new WaysSvg.Way("first", List.of(new WaysSvg.Span(100, 50, 90, 180))),
                    new WaysSvg.Way("second", List.of(new WaysSvg.Span(200, 60, 150, 390)))));

    private static NodeList all(String name) throws Exception {
        String svg = WaysSvg.draw("a & b", List.of("minutes"), List.of(ONE));
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)))
                .getElementsByTagName(name);
    }

    private static double number(Object e, String name) {
        return Double.parseDouble(((Element) e).getAttribute(name));
    }

    /** 100 against 200 on a scale from 0: the second mark is twice as far from the left edge as the first. */
    @Test
    void marksStandInProportion() throws Exception {
        double zero = number(all("line").item(0), "x1");
        NodeList marks = all("circle");
        assertEquals(2, marks.getLength());
        double first = number(marks.item(0), "cx") - zero;
        assertEquals(2 * first, number(marks.item(1), "cx") - zero, 0.11);
        assertTrue(first > 0);
    }

    @Test
    void everyLineStaysWithinItsPanelAndHoldsItsMark() throws Exception {
        NodeList lines = all("line");
        List<double[]> spans = new ArrayList<>();
        double zero = number(lines.item(0), "x1");
        double most = number(lines.item(4), "x1");
        for (int i = 5; i < lines.getLength(); i++)
            if (number(lines.item(i), "x1") != number(lines.item(i), "x2"))
                spans.add(new double[] {number(lines.item(i), "x1"), number(lines.item(i), "x2")});
        assertEquals(2, spans.size());
        for (int i = 0; i < 2; i++) {
            double mark = number(all("circle").item(i), "cx");
            assertTrue(zero <= spans.get(i)[0] && spans.get(i)[1] <= most, "span " + i);
            assertTrue(spans.get(i)[0] < mark && mark < spans.get(i)[1], "mark " + i);
        }
    }

    @Test
    void onlyTheFirstWayIsFilled() throws Exception {
        NodeList marks = all("circle");
        assertEquals(Ink.TEXT, ((Element) marks.item(0)).getAttribute("fill"));
        assertEquals(Ink.PAPER, ((Element) marks.item(1)).getAttribute("fill"));
    }
}
