package loomcase.draw;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;
import loomcase.model.PlaceId.Kind;
import loomcase.model.Wire;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;

class HarnessSvgTest {
    private static Suspicion larch(Circuit c) {
        return new Suspicion(
                Map.of(
                        new PlaceId(Kind.SPLICE, "S5CM"), 0.8,
                        new PlaceId(Kind.BRANCH, "BM2"), 0.1,
                        new PlaceId(Kind.DEVICE, "BAR"), 0.05,
                        new PlaceId(Kind.CAVITY, "C-TIP/1"), 0.02),
                List.of(
                        new Suspicion.Mark(1, new PlaceId(Kind.SPLICE, "S5CM"), "5 V splice open"),
                        new Suspicion.Mark(2, new PlaceId(Kind.BRANCH, "BM2"), "trunk worn through"),
                        new Suspicion.Mark(3, new PlaceId(Kind.DEVICE, "BAR"), "sensor shorted inside")),
                c.wires().values().stream()
                        .filter(w -> w.from().equals("S5CM") || w.to().equals("S5CM"))
                        .map(Wire::id)
                        .toList());
    }

    private static String draw(Circuit c, Suspicion s) {
        return HarnessSvg.draw(c, new Layout(c), s);
    }

    private static void complete(Circuit c, Picture p) {
        List<String> drawn = new ArrayList<>(p.values("data-place"));
        for (PlaceId place : Looms.places(c))
            assertEquals(1, Collections.frequency(drawn, place.toString()), () -> place + " drawn once");
        List<String> rubs = new ArrayList<>(p.values("data-rub"));
        c.branches().values().forEach(b -> b.rubPoints()
                .forEach(r -> assertEquals(1, Collections.frequency(rubs, r.id()), () -> "rub point " + r.id())));
    }

    @Test
    void drawsEveryPlaceOfTheProjectsCircuitsOnceAndNoTextOverAnother() {
        for (String name : List.of("larch-13.json", "teaching.json")) {
            Circuit c = Looms.read(name);
            Picture p = new Picture(draw(c, name.startsWith("l") ? larch(c) : Suspicion.none()));
            complete(c, p);
            assertEquals(List.of(), p.clashes(), name);
            assertTrue(p.number("width") <= 1600, name + " is " + p.number("width") + " px wide");
        }
    }

    @Test
    void randomTreesAreCompleteWithoutOverlap() {
        Random random = new Random(20240611);
        for (int i = 0; i < 120; i++) {
            Circuit c = Looms.random(random, 4 + random.nextInt(57));
            Picture p = new Picture(draw(c, Looms.suspect(random, c)));
            complete(c, p);
            assertEquals(List.of(), p.clashes(), "tree " + i);
        }
    }

    @Test
    void givesTheSameBytesForTheSameInput() {
        Circuit c = Looms.read("larch-13.json");
        assertEquals(draw(c, larch(c)), draw(Looms.read("larch-13.json"), larch(c)));
    }

    @Test
    void noTextIsSmallerThanTwelvePixels() {
        Circuit c = Looms.read("larch-13.json");
        Picture p = new Picture(draw(c, larch(c)));
        assertEquals("12", p.root.getAttribute("font-size"));
        for (Element t : p.all("text"))
            assertTrue(!t.hasAttribute("font-size") || Double.parseDouble(t.getAttribute("font-size")) >= 12);
    }

    @Test
    void tellsAScreenReaderWhatItShows() {
        Circuit c = Looms.read("larch-13.json");
        Picture p = new Picture(draw(c, larch(c)));
        assertEquals("img", p.root.getAttribute("role"));
        assertEquals("loom-larch-13-title loom-larch-13-desc", p.root.getAttribute("aria-labelledby"));
        assertEquals(
                "Wiring harness drawn as a tree from the control unit outward, not to scale: 30 branches, 80 plugs, 66"
                        + " devices, 41 splices. Suspected places in order: 1: splice S5CM, 5 V splice open, 80 %;"
                        + " 2: branch BM2, trunk worn through, 10 %; 3: device BAR, sensor shorted inside, 5 %.",
                p.all("desc").get(0).getTextContent());
    }

    @Test
    void marksStandOnTheirPlaceAndInTheKey() {
        Circuit c = Looms.read("larch-13.json");
        Picture p = new Picture(draw(c, larch(c)));
        assertEquals(List.of("splice S5CM", "branch BM2", "device BAR"), p.values("data-key"));
        assertTrue(texts(p, "splice S5CM").containsAll(List.of("1", "S5CM 80 %")));
        assertTrue(texts(p, "branch BM2").containsAll(List.of("2", "BM2 10 %")));
        assertTrue(texts(p, "device BAR").containsAll(List.of("3", "BAR 5 %")));
        assertEquals(List.of("/1 2 %"), texts(p, "cavity C-TIP/1"));
        assertEquals(List.of("SGE"), texts(p, "splice SGE"));
    }

    private static List<String> texts(Picture p, String place) {
        Element g = p.all("g").stream()
                .filter(e -> e.getAttribute("data-place").equals(place))
                .findFirst()
                .orElseThrow();
        List<String> out = new ArrayList<>();
        for (int i = 0; i < g.getElementsByTagName("text").getLength(); i++)
            out.add(g.getElementsByTagName("text").item(i).getTextContent());
        return out;
    }

    /**
     * <pre>
     * ECM J1 -- N0 ==A== N1 ==B== N2 C-D   wire W1: J1/1 to S on A; wire W2: S to C-D/1; W3: C-D/2 to C-E/1
     *              S       ==C== N3 C-E
     * </pre>
     */
    @Test
    void traceEndsAtTheSpliceOrPlugWhereTheWireEnds() {
        Circuit c = new Looms()
                .branch("A", "N0", "N1", 1)
                .branch("B", "N1", "N2", 1)
                .branch("C", "N3", "N1", 1)
                .plug("J1", "N0", "ECM")
                .device("D", "d")
                .device("E", "e")
                .plug("C-D", "N2", "D")
                .plug("C-E", "N3", "E")
                .splice("S", "A", 0.5)
                .wire("W1", "J1/1", "S")
                .wire("W2", "S", "C-D/1")
                .wire("W3", "C-D/2", "C-E/1")
                .circuit();
        Picture one = trace(c, "W1");
        Picture two = trace(c, "W2");
        double splice = spliceX(one);
        double plugD = tagX(one, "connector C-D");
        assertEquals(splice, rightmost(one), 0.11);
        assertEquals(splice, leftmost(two), 0.11);
        assertEquals(plugD, rightmost(two), 0.11);
        Picture three = trace(c, "W3");
        assertTrue(leftmost(three) > splice, "a wire between two far plugs stays off the trunk");
        assertEquals(Math.max(plugD, tagX(three, "connector C-E")), rightmost(three), 0.11);
    }

    private static Picture trace(Circuit c, String wire) {
        return new Picture(draw(c, new Suspicion(Map.of(), List.of(), List.of(wire))));
    }

    private static double tagX(Picture p, String place) {
        String d = shape(p, place).getAttribute("d");
        return Double.parseDouble(d.substring(1, d.indexOf(' ')));
    }

    /** The middle of the diamond: its path begins at the left corner, 6 px from it. */
    private static double spliceX(Picture p) {
        return tagX(p, "splice S") + 6;
    }

    private static Element shape(Picture p, String place) {
        Element g = p.all("g").stream()
                .filter(e -> e.getAttribute("data-place").equals(place))
                .findFirst()
                .orElseThrow();
        return (Element) g.getElementsByTagName("path").item(0);
    }

    private static double rightmost(Picture p) {
        return traced(p).stream()
                .mapToDouble(s -> Math.max(s.x0(), s.x1()))
                .max()
                .orElseThrow();
    }

    private static double leftmost(Picture p) {
        return traced(p).stream()
                .mapToDouble(s -> Math.min(s.x0(), s.x1()))
                .min()
                .orElseThrow();
    }

    private static List<Picture.Segment> traced(Picture p) {
        return p.segments().stream().filter(s -> s.half() == 3).toList();
    }

    @Test
    void textFromTheCircuitIsEscaped() {
        Looms l = new Looms().branch("A<", "N0", "N1", 1).plug("J1", "N0", "ECM");
        l.device("D&\"'", "</svg><script>alert(1)</script>").plug("C", "N1", "D&\"'");
        l.title = "a < b & c \u0000 \ud800";
        String svg = draw(l.circuit(), Suspicion.none());
        assertFalse(svg.contains("<script"));
        Picture p = new Picture(svg);
        assertEquals("a < b & c \ufffd \ufffd", p.all("title").get(0).getTextContent());
        assertTrue(p.values("data-place").containsAll(List.of("branch A<", "device D&\"'")));
    }

    @Test
    void junctionsWithoutBranchAreDrawnApart() {
        Circuit c = new Looms()
                .branch("A", "N0", "N1", 1)
                .plug("J1", "N0", "ECM")
                .device("D", "far device")
                .plug("C-D", "ELSEWHERE", "D")
                .circuit();
        Picture p = new Picture(draw(c, Suspicion.none()));
        complete(c, p);
        assertTrue(p.boxes().stream()
                .anyMatch(b -> b.text().equals("Not joined to the control unit by a branch: junction ELSEWHERE")));
        assertEquals(List.of(), p.clashes());
    }

    @Test
    void circuitWithoutBranchesAndLoopsOfBranchesAreDrawn() {
        Circuit bare = new Looms().plug("J1", "N0", "ECM").circuit();
        complete(bare, new Picture(draw(bare, Suspicion.none())));
        Circuit nothing = new Looms().circuit();
        assertEquals(List.of(), new Picture(draw(nothing, Suspicion.none())).clashes());
        Circuit loop = new Looms()
                .branch("A", "N0", "N1", 1)
                .branch("B", "N1", "N2", 1)
                .branch("C", "N2", "N0", 1, new loomcase.model.Branch.RubPoint("R", "edge", 0.7))
                .branch("D", "N1", "N1", 1)
                .plug("J1", "N0", "ECM")
                .splice("S", "C", 0.5)
                .circuit();
        Picture p = new Picture(draw(loop, Suspicion.none()));
        complete(loop, p);
        assertEquals(List.of(), p.clashes());
    }

    @Test
    void aDeviceWithTwoPlugsOnTwoJunctionsIsDrawnOnce() {
        Circuit c = new Looms()
                .branch("A", "N0", "N1", 1)
                .plug("J1", "N0", "ECM")
                .device("D", "two plugs")
                .plug("C1", "N0", "D")
                .plug("C2", "N1", "D")
                .plug("C3", "N1", "D")
                .circuit();
        complete(c, new Picture(draw(c, Suspicion.none())));
    }

    @Test
    void suspicionThatNamesWhatIsNotThereIsRefused() {
        Circuit c = Looms.read("teaching.json");
        Suspicion s = new Suspicion(Map.of(new PlaceId(Kind.CAVITY, "C1/9"), 0.5), List.of(), List.of());
        String said =
                assertThrows(IllegalArgumentException.class, () -> draw(c, s)).getMessage();
        assertEquals("place cavity C1/9 is not in circuit teaching", said);
        Suspicion t = new Suspicion(Map.of(), List.of(), List.of("W999"));
        said = assertThrows(IllegalArgumentException.class, () -> draw(c, t)).getMessage();
        assertEquals("wire W999 is not in circuit teaching", said);
    }

    /** The fastest of many runs, because the machine may be busy with other things. */
    @Test
    void theBigCircuitTakesLessThanFiftyMilliseconds() {
        Circuit c = Looms.read("larch-13.json");
        Layout layout = new Layout(c);
        Suspicion s = larch(c);
        long best = Long.MAX_VALUE;
        for (int i = 0; i < 60; i++) {
            long from = System.nanoTime();
            HarnessSvg.draw(c, layout, s);
            best = Math.min(best, System.nanoTime() - from);
        }
        assertTrue(best < 50_000_000, "took " + best / 1e6 + " ms");
    }
}
