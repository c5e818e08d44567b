package loomcase.draw;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

class ReliabilitySvgTest {
    private static Document draw(List<ReliabilitySvg.Panel> panels) throws Exception {
        String svg = ReliabilitySvg.draw("a <title> & more", panels);
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
    }

    private static double number(Element e, String name) {
        return Double.parseDouble(e.getAttribute(name));
    }

    @Test
    void believableStatementsStandOnTheDiagonal() throws Exception {
        Document svg = draw(List.of(new ReliabilitySvg.Panel(
                "p", List.of(new ReliabilitySvg.Dot(0.3, 0.3, 5), new ReliabilitySvg.Dot(0.9, 0.9, 20)))));
        Element diagonal = (Element) svg.getElementsByTagName("line").item(0);
        double slope =
                (number(diagonal, "y2") - number(diagonal, "y1")) / (number(diagonal, "x2") - number(diagonal, "x1"));
        for (int i = 0; i < 2; i++) {
            Element dot = (Element) svg.getElementsByTagName("circle").item(i);
            double onLine = number(diagonal, "y1") + slope * (number(dot, "cx") - number(diagonal, "x1"));
            assertEquals(onLine, number(dot, "cy"), 0.11);
        }
    }

    @Test
    void emptyClassesLeaveNoDotAndMoreCasesMakeALargerOne() throws Exception {
        Document svg = draw(List.of(new ReliabilitySvg.Panel(
                "p",
                List.of(
                        new ReliabilitySvg.Dot(0.1, 0, 0),
                        new ReliabilitySvg.Dot(0.5, 0.5, 4),
                        new ReliabilitySvg.Dot(0.9, 1, 40)))));
        assertEquals(2, svg.getElementsByTagName("circle").getLength());
        Element few = (Element) svg.getElementsByTagName("circle").item(0);
        Element many = (Element) svg.getElementsByTagName("circle").item(1);
        assertTrue(number(many, "r") > number(few, "r"));
    }
}
