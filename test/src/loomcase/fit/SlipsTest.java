package loomcase.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import loomcase.model.Circuit;
import loomcase.model.Copper;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CircuitFacts;
import loomcase.solve.Tables;
import org.junit.jupiter.api.Test;

/** What slips lead to; the swaps themselves are held to ngspice in {@code loomcase.solve.SwapSpiceTest}. */
class SlipsTest {
    private static final Path LARCH = Path.of("circuits", "larch-13.json");

    private static PolicyOutcome policy(Circuit c) {
        return Policy.builtIn().decide(CircuitFacts.codes(c), CircuitFacts.places(c));
    }

    private static List<Slip> swaps(Circuit c, String plug) {
        return new Slips(Fit.compare(c, c), policy(c)).swaps(plug);
    }

    /** All swaps of J1 of the reference harness, which two tests look at. */
    private static final class OfJ1 {
        static final Circuit LARCH13 = CircuitReader.read(LARCH);
        static final List<Slip> ALL = swaps(LARCH13, "J1");
    }

    private static Slip swap(List<Slip> all, String a, String b) {
        return all.stream()
                .filter(s -> Set.of(s.cavity(), s.other().orElseThrow()).equals(Set.of(a, b)))
                .findFirst()
                .orElseThrow();
    }

    /** 60 cavities have 60 · 59 / 2 pairs. Every silent one has a check, and the network tells right from wrong by it. */
    @Test
    void everySilentSwapOfThe60CavityPlugIsCaughtByACheck() {
        Circuit larch = OfJ1.LARCH13;
        List<Slip> all = OfJ1.ALL;
        assertEquals(1770, all.size());
        Checks fresh = new Checks(
                Fit.compare(larch, larch), new loomcase.solve.NetworkSolver(larch, new loomcase.model.Layout(larch)));
        int silent = 0;
        Set<String> cavities = new HashSet<>();
        for (Slip s : all) {
            if (s.effect() == Slip.Effect.NONE) continue;
            Slip.Check c = s.check().orElseThrow(() -> new AssertionError("no check for " + s));
            assertTrue(s.wrongOhms().orElseThrow() > c.limitOhms(), s.toString());
            cavities.add(c.cavity());
            if (s.effect() == Slip.Effect.SILENT) silent++;
        }
        for (String cavity : cavities) {
            Slip.Check c = fresh.of(cavity).orElseThrow();
            double right = fresh.reading(c, cavity);
            assertEquals(c.expectedOhms(), right, 1e-9);
            assertTrue(right < c.limitOhms(), c.toString());
        }
        assertTrue(silent > 100, silent + " silent ones: the test would prove little");
    }

    /** Supply pin onto signal: battery on a 5 V input must be called a danger; parallel feeds swapped change nothing. */
    @Test
    void batteryOnASignalPinMayDamageAndParallelFeedsDoNothing() {
        List<Slip> all = OfJ1.ALL;
        assertEquals(Slip.Effect.NONE, swap(all, "J1/1", "J1/16").effect());
        assertTrue(swap(all, "J1/1", "J1/7").damage().stream().anyMatch(d -> d.contains("V reaches signal pin J1/7")));
        assertTrue(swap(all, "J1/1", "J1/10").damage().stream().anyMatch(d -> d.contains("on the 5 V supply 5VC")));
        assertTrue(swap(all, "J1/11", "J1/13").damage().isEmpty());
    }

    @Test
    void injectorVoltageOnASensorWireIsADanger() {
        Circuit larch = CircuitReader.read(LARCH);
        DamageRules rules = new DamageRules(larch);
        Copper copper = Copper.of(larch);
        String injector = larch.devices().get("INJ5").terminals().get("a");
        String other = larch.devices().get("INJ5").terminals().get("b");
        assertEquals(1, rules.boosted(injector, "C-ECT/1", copper).size());
        assertEquals(List.of(), rules.boosted(injector, other, copper));
        assertEquals(List.of(), rules.boosted("C-ECT/1", "C-ECT/2", copper));
    }

    @Test
    void aTerminalLeftOutSetsTheCodeOfItsCircuit() {
        FitReport report = FitReport.of(Fit.compare(FitTest.year(1), FitTest.year(3)), policy(FitTest.year(1)));
        Slip left = report.plugs().get(0).slips().stream()
                .filter(s -> s.kind() == Slip.Kind.LEFT_OUT && s.cavity().equals("J1/6"))
                .findFirst()
                .orElseThrow();
        assertEquals(
                List.of("110/3"),
                left.codes().stream()
                        .map(c -> c.code().spn() + "/" + c.code().fmi())
                        .toList());
        for (FitReport.PlugReport p : report.plugs()) {
            int n = p.transfer().handled().size();
            assertEquals(n * (n - 1) / 2 + 2 * n, p.slips().size());
            assertEquals(List.of(), p.unchecked());
        }
    }

    @Test
    void aSwapThatTakesTheSupplyAwayIsNotCalledSilent() {
        List<Slip> all = swaps(FitTest.year(1), "J1");
        assertEquals(Slip.Effect.UNIT_DEAD, swap(all, "J1/1", "J1/2").effect());
    }

    @Test
    void aHarnessThatDoesNotFitHasNoSheets() {
        assertEquals(
                List.of(),
                FitReport.of(Fit.compare(FitTest.year(1), FitTest.year(4)), policy(FitTest.year(1)))
                        .plugs());
    }

    /**
     * Ohms of the check are metres times milliohms a metre of the gauge table (ASTM B258 diameters, IEC 60028 copper); two
     * tails of 0.05 m are ours. Published maxima of stranded wire stay below the limit.
     */
    @Test
    void expectedOhmsAreThoseOfTheWireTable() {
        Circuit c = FitTest.year(1);
        Slips slips = new Slips(Fit.compare(c, c), policy(c));
        Map<String, Map<String, String>> table =
                Tables.rows("conductors_awg.csv").stream().collect(Collectors.toMap(r -> r.get("awg"), r -> r));
        Slip.Check check = slips.check("J1/6").orElseThrow();
        assertEquals("C1/1", check.far());
        double metres = 1.0 + 0.5 + 2 * 0.05;
        double expected = metres * Double.parseDouble(table.get("18").get("R20_mohm_per_m_calc_rho_1_58")) / 1000;
        assertEquals(expected, check.expectedOhms(), 1e-5);
        double most = metres
                * Double.parseDouble(table.get("18").get("R20_max_mohm_per_m_stranded_tinned_AC43_13_1B_T11_9"))
                / 1000;
        assertTrue(most < check.limitOhms());
        assertFalse(check.limitOhms() > 1, "the usual shop limit is 1 ohm for a short run: common practice, no source");
    }

    /** FAA AC 43.13-1B, table 11-9, as test/data/wiring/conductors_awg.csv quotes it. */
    @Test
    void amperesAreThoseOfTheTable() {
        for (Map<String, String> row : Tables.rows("conductors_awg.csv"))
            assertEquals(
                    Double.parseDouble(row.get("I_A_bundle_105C_AC43")),
                    Ampacity.amperes(loomcase.model.Conductor.parse("AWG" + row.get("awg"))),
                    "AWG" + row.get("awg"));
        assertEquals(6, Ampacity.amperes(loomcase.model.Conductor.parse("0.75mm2")));
        assertEquals(Optional.of(true), Optional.of(Ampacity.amperes(loomcase.model.Conductor.parse("0.1mm2")) < 2.5));
    }
}
