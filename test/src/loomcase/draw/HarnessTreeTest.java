package loomcase.draw;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;
import loomcase.model.PlaceId.Kind;
import org.junit.jupiter.api.Test;

class HarnessTreeTest {
    private static Suspicion teaching() {
        Map<PlaceId, Double> shares = new LinkedHashMap<>();
        shares.put(new PlaceId(Kind.SPLICE, "S1"), 0.72);
        shares.put(new PlaceId(Kind.BRANCH, "B1"), 0.14);
        shares.put(new PlaceId(Kind.CAVITY, "J1/3"), 0.08);
        shares.put(new PlaceId(Kind.DEVICE, "OPS"), 0.03);
        shares.put(new PlaceId(Kind.ENGINE, "none"), 0.006);
        return new Suspicion(
                shares,
                List.of(
                        new Suspicion.Mark(1, new PlaceId(Kind.SPLICE, "S1"), "5 V splice open"),
                        new Suspicion.Mark(2, new PlaceId(Kind.BRANCH, "B1"), "worn through")),
                List.of());
    }

    /**
     * Counted by hand from circuits/teaching.json: on B2 hang C1 ECT C4 FAN; off B1 are S2 B3 C3 MAP; at the root are G1
     * B4 F1 CB BAT. B1 carries every wire between J1 and the front (pins 3 to 8 and what the splices make of them).
     */
    @Test
    void teachingHarnessWordForWord() {
        Circuit c = Looms.read("teaching.json");
        assertEquals(
                """
                ECM engine control unit
                ├─ engine: nothing wrong now                                                        █░░░░░░░░░  <1 %
                ├─ plug J1 control unit plug
                │  └─ cavity J1/3                                                                   █░░░░░░░░░   8 %
                ├─ branch B1 trunk, control unit to front, 12 wires                             (2) █░░░░░░░░░  14 %
                │  ├─ splice S1 5 V supply of both pressure sensors                             (1) ███████░░░  72 %
                │  ├─ rub point R1 edge of lifting bracket
                │  ├─ branch B2 front branch, coolant, oil and fan, 7 wires
                │  │  ├─ device OPS oil pressure sensor (plug C2)                                   █░░░░░░░░░   3 %
                │  │  └─ … 4 more places, none suspected
                │  └─ … 4 more places, none suspected
                └─ … 5 more places, none suspected
                """,
                HarnessTree.draw(c, new Layout(c), teaching(), false));
    }

    @Test
    void asciiVariantHasTheSameShape() {
        Circuit c = Looms.read("teaching.json");
        String ascii = HarnessTree.draw(c, new Layout(c), teaching(), true);
        assertTrue(ascii.chars().allMatch(ch -> ch == '\n' || ch >= ' ' && ch < 127), ascii);
        String unicode = HarnessTree.draw(c, new Layout(c), teaching(), false);
        assertEquals(unicode.lines().count(), ascii.lines().count());
        assertTrue(ascii.contains("`- ... 5 more places, none suspected"));
        assertTrue(ascii.contains("(1) #######...  72 %"));
    }

    @Test
    void bigHarnessWithSixSuspectsFitsAScreenAndAccountsForEveryPlace() {
        Circuit c = Looms.read("larch-13.json");
        Map<PlaceId, Double> shares = new LinkedHashMap<>();
        shares.put(new PlaceId(Kind.SPLICE, "S5CM"), 0.6);
        shares.put(new PlaceId(Kind.BRANCH, "BM2"), 0.1);
        shares.put(new PlaceId(Kind.DEVICE, "BAR"), 0.05);
        shares.put(new PlaceId(Kind.CONNECTOR, "C-DPS"), 0.05);
        shares.put(new PlaceId(Kind.DEVICE, "INJ4"), 0.05);
        shares.put(new PlaceId(Kind.FUSE, "F6"), 0.05);
        String text = HarnessTree.draw(c, new Layout(c), new Suspicion(shares, List.of(), List.of()), false);
        assertTrue(text.lines().count() <= 40, text);
        for (PlaceId p : shares.keySet()) assertTrue(text.contains(" " + p.id() + " "), p + " in\n" + text);
        // 9 branches on the way (BM1 BM2 BM3 BM6 BM7 BM12 BE1 BE7 BE16 BE17 are 10), S5CM, F6, and three plugs with
        // device
        int named = 10 + 1 + 1 + 2 * 3;
        assertEquals(Looms.places(c).size() - named, folded(text), text);
    }

    private static int folded(String text) {
        return java.util.regex.Pattern.compile("… (\\d+) more place")
                .matcher(text)
                .results()
                .mapToInt(m -> Integer.parseInt(m.group(1)))
                .sum();
    }

    @Test
    void nothingSuspectedShowsTheWholeHarness() {
        Circuit c = Looms.read("teaching.json");
        String text = HarnessTree.draw(c, new Layout(c), Suspicion.none(), false);
        for (PlaceId p : Looms.places(c))
            assertEquals(
                    2, (" " + text.replace('\n', ' ') + " ").split(" " + p.id() + " ").length, p + " once in\n" + text);
        assertEquals(0, folded(text));
    }

    @Test
    void oneFoldedPlaceIsSingular() {
        Circuit c = new Looms()
                .branch("A", "N0", "N1", 1)
                .branch("B", "N0", "N2", 1)
                .plug("J1", "N0", "ECM")
                .splice("S", "A", 0.5)
                .circuit();
        Map<PlaceId, Double> shares = Map.of(new PlaceId(Kind.SPLICE, "S"), 1.0, new PlaceId(Kind.BRANCH, "B"), 0.995);
        assertEquals(
                """
                ECM engine control unit
                ├─ branch A branch called A, 0 wires
                │  └─ splice S splice called S                                                      ██████████ 100 %
                ├─ branch B branch called B, 0 wires                                                ██████████ >99 %
                └─ … 1 more place, not suspected
                """,
                HarnessTree.draw(c, new Layout(c), new Suspicion(shares, List.of(), List.of()), false));
    }

    @Test
    void whatNoBranchJoinsIsShownApart() {
        Circuit c = new Looms()
                .plug("J1", "N0", "ECM")
                .device("D", "lone")
                .plug("C", "N9", "D")
                .circuit();
        assertEquals(
                """
                ECM engine control unit
                └─ plug J1 plug of ECM
                junction N9, not joined by a branch
                └─ plug C - device D lone
                """,
                HarnessTree.draw(c, new Layout(c), Suspicion.none(), false));
    }

    @Test
    void randomTreesStayWithinTheWidthAndShowEverySuspect() {
        Random random = new Random(7);
        for (int i = 0; i < 200; i++) {
            Circuit c = Looms.random(random, 1 + random.nextInt(60));
            Suspicion s = Looms.suspect(random, c);
            String text = HarnessTree.draw(c, new Layout(c), s, random.nextBoolean());
            text.lines().forEach(l -> assertTrue(l.codePointCount(0, l.length()) <= HarnessTree.WIDTH, l));
            for (Suspicion.Mark m : s.marks())
                assertEquals(
                        1,
                        text.lines()
                                .filter(l -> l.contains(" (" + m.rank() + ") "))
                                .count(),
                        m + " in\n" + text);
        }
    }
}
