package loomcase.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class BuiltInRulesTest {
    private static final Policy BUILT_IN = Policy.builtIn();
    private static final double WEIGHT_TOLERANCE = 1e-9;

    static List<String> ruleNames() {
        return Policy.builtInRuleNames(Family.CODES);
    }

    private static PolicyOutcome decide() {
        return BUILT_IN.decide(PolicyFacts.codes(), PolicyFacts.places(), PolicyFacts.harms());
    }

    @ParameterizedTest
    @MethodSource("ruleNames")
    void firesAndIsMissedWhenTurnedOff(String rule, @TempDir Path folder) throws IOException {
        Files.writeString(folder.resolve("rules-off.txt"), rule + "\n");

        PolicyOutcome without =
                Policy.withShopRules(folder).decide(PolicyFacts.codes(), PolicyFacts.places(), PolicyFacts.harms());

        assertTrue(decide().ruleNamesFired().contains(rule));
        assertFalse(without.ruleNamesFired().contains(rule));
        assertFalse(without.concludesAs(decide()));
        assertTrue(without.shopPolicyDiffers());
    }

    @Test
    void weightsOfAKindAndConditionSumToOne() {
        Map<String, Double> totals = decide().readings().stream()
                .collect(Collectors.groupingBy(
                        reading -> reading.circuitKind() + " " + reading.conditionFmi(),
                        TreeMap::new,
                        Collectors.summingDouble(FmiReading::weight)));

        assertFalse(totals.isEmpty());
        totals.forEach((key, total) -> assertEquals(1.0, total, WEIGHT_TOLERANCE, key));
    }

    @Test
    void orderOfTheFactsDoesNotMatter() {
        List<WatchedCode> codes = new ArrayList<>(PolicyFacts.codes());
        List<PlaceFact> places = new ArrayList<>(PolicyFacts.places());
        Collections.shuffle(codes, new Random(7));
        Collections.shuffle(places, new Random(7));
        assertNotEquals(PolicyFacts.codes(), codes);

        assertEquals(decide(), BUILT_IN.decide(codes, places, PolicyFacts.harms()));
    }

    @Test
    void nothingFollowsFromNoFacts() {
        PolicyOutcome outcome = BUILT_IN.decide(List.of(), List.of());

        assertEquals(new PolicyOutcome(List.of(), List.of(), List.of(), List.of(), false, List.of()), outcome);
    }

    @Test
    void everyConclusionHasAReasonOrSource() {
        decide().masks().forEach(mask -> assertFalse(mask.reason().isBlank(), mask.rule()));
        decide().readings().forEach(reading -> assertFalse(reading.basis().isBlank(), reading.rule()));
        decide().cautions().forEach(caution -> assertFalse(caution.source().isBlank(), caution.rule()));
    }

    /** Circuit simulation figures of the project's reference: an open thermistor is sent as 3 in 95 % and as 2 in 5 %. */
    @Test
    void readsAnOpenThermistor() {
        List<FmiReading> readings = BUILT_IN.decide(List.of(PolicyFacts.code(110, 3, "ntc", "", "")), List.of())
                .readings();

        String rule = "An open thermistor circuit shows 3, rarely 2";
        String basis = "derived from a circuit simulation of a two-wire thermistor, signal or return open";
        assertEquals(
                List.of(new FmiReading("ntc", 3, 3, 0.95, rule, basis), new FmiReading("ntc", 3, 2, 0.05, rule, basis)),
                readings.subList(0, 2));
    }

    /**
     * Source: SAE J1939-73 (see {@code test/data/policy/SOURCES.md}). A code for a value out of range needs a value, and a
     * voltage code takes the value away: so the hidden codes are those that send a measured value, and no others.
     */
    @Test
    void rangeCodesAreHiddenExactlyWhereTheStandardTakesTheValueAway() throws IOException {
        Map<Integer, String> valueSent = publishedValueSent();
        List<WatchedCode> codes = valueSent.keySet().stream()
                .map(fmi -> PolicyFacts.code(110, fmi, "ntc", "", ""))
                .toList();

        List<Integer> hidden = BUILT_IN.decide(codes, List.of()).masks().stream()
                .filter(mask -> mask.rule().equals("A voltage code hides the range codes of the same signal"))
                .map(Mask::hidesFmi)
                .toList();

        List<Integer> measured = valueSent.entrySet().stream()
                .filter(entry -> entry.getValue().equals("as measured"))
                .map(Map.Entry::getKey)
                .toList();
        assertEquals(measured, hidden);
    }

    /** Source: SAE J1939-73, definition of FMI 2, which leaves out the situations of FMI 3, 4, 5 and 6. */
    @Test
    void theErraticCodeIsHiddenByTheCodesThatTheStandardExcludesFromIt() {
        List<WatchedCode> codes = new ArrayList<>();
        for (int fmi = 0; fmi <= 31; fmi++) {
            codes.add(PolicyFacts.code(110, fmi, "ntc", "", ""));
        }

        List<Integer> hiding = BUILT_IN.decide(codes, List.of()).masks().stream()
                .filter(mask -> mask.hidesFmi() == 2)
                .map(Mask::byFmi)
                .toList();

        assertEquals(List.of(3, 4, 5, 6), hiding);
    }

    /**
     * Source: Ohm's law for the open and the grounded pin on 5 V, and the wording of SAE J1939-73: voltage above normal is
     * FMI 3, below normal FMI 4. Pull-up and pull-down in kilohm; 0 means none.
     */
    @ParameterizedTest
    @CsvSource({
        "ntc, 1, 0, open, 3",
        "ntc, 1, 0, grounded, 4",
        "ratiometric-pull-down, 0, 100, open, 4",
        "ratiometric-pull-up, 51, 0, open, 3",
        "ratiometric-pull-up, 51, 0, grounded, 4",
        "probe, 1, 0, open, 3",
        "probe, 1, 0, grounded, 4",
        "position, 0, 100, open, 4"
    })
    void aReadingHoldsTheFmiThatThePinVoltageCallsFor(
            String kind, double pullUp, double pullDown, String fault, int publishedFmi) {
        double toSupply = pullUp == 0 ? 0 : 1 / pullUp;
        double toGround = (pullDown == 0 ? 0 : 1 / pullDown) + (fault.equals("grounded") ? 1e6 : 0);
        double volts = 5 * toSupply / (toSupply + toGround);
        int condition = volts > 4.5 ? 3 : 4;
        assertEquals(publishedFmi, condition);

        double weight = BUILT_IN.decide(List.of(PolicyFacts.code(110, 3, kind, "", "")), List.of()).readings().stream()
                .filter(reading -> reading.conditionFmi() == condition && reading.shownFmi() == publishedFmi)
                .mapToDouble(FmiReading::weight)
                .sum();
        assertTrue(weight >= 0.4, () -> "weight of the FMI that the voltage calls for is " + weight);
    }

    private static Map<Integer, String> publishedValueSent() throws IOException {
        try (InputStream in = BuiltInRulesTest.class.getResourceAsStream("/data/policy/fmi-broadcast.csv")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .skip(1)
                    .map(line -> line.split(","))
                    .collect(Collectors.toMap(
                            cells -> Integer.parseInt(cells[0]), cells -> cells[1], (a, b) -> a, TreeMap::new));
        }
    }
}
