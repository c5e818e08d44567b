package loomcase.draw;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** The picture of a class, read back as XML. */
class LearningCurveTest {
    private static NodeList circles(List<LearningCurve.Line> lines) throws Exception {
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(LearningCurve.svg(lines))))
                .getElementsByTagName("circle");
    }

    private static double y(NodeList circles, int i) {
        return Double.parseDouble(((Element) circles.item(i)).getAttribute("cy"));
    }

    @Test
    void equalFactorsAreEqualDistances() throws Exception {
        NodeList c = circles(List.of(new LearningCurve.Line(
                "a <b> & c",
                List.of(
                        new LearningCurve.Point(1, 8, false),
                        new LearningCurve.Point(2, 4, true),
                        new LearningCurve.Point(3, 2, true)))));
        assertEquals(3, c.getLength());
        assertEquals(y(c, 1) - y(c, 0), y(c, 2) - y(c, 1), 0.2);
        assertTrue(y(c, 0) < y(c, 1), "longer is higher");
        assertEquals("#ffffff", ((Element) c.item(0)).getAttribute("fill"), "a ring where it was not solved");
    }

    @Test
    void nobodyAndNothingStillGiveAPicture() throws Exception {
        assertEquals(0, circles(List.of()).getLength());
        assertEquals(
                0, circles(List.of(new LearningCurve.Line("ada", List.of()))).getLength());
        assertThrows(IllegalArgumentException.class, () -> new LearningCurve.Point(1, 0, true));
    }
}
