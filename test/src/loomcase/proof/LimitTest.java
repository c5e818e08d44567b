package loomcase.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import loomcase.demo.Harness;
import loomcase.model.Conductor;
import loomcase.model.Wire;
import loomcase.solve.Tables;
import org.junit.jupiter.api.Test;

/**
 * Limits of continuity against published tables: a good stranded wire must pass, a bad joint must not. The source of each
 * row of test/data/wiring is in its table.
 */
class LimitTest {
    private static final double[] METRES = {0.3, 1, 3, 8, 15};

    private static double copper(String size, double metres, double celsius) {
        return metres * Conductor.parse(size).ohmsPerMetre(celsius);
    }

    /** Largest resistance that AC 43.13-1B table 11-9 allows for stranded tinned wire. */
    @Test
    void goodStrandedWireByGaugePasses() {
        for (Map<String, String> row : Tables.rows("conductors_awg.csv"))
            for (double m : METRES) {
                String most = row.get("R20_max_mohm_per_m_stranded_tinned_AC43_13_1B_T11_9");
                if (most.isEmpty()) continue;
                double worst = m * Double.parseDouble(most) / 1000;
                assertTrue(worst <= MeterChecks.limit(copper("AWG" + row.get("awg"), m, 20)), row + " " + m);
            }
    }

    /** Largest resistance that ISO 6722-1 and IEC 60228 class 5 allow. */
    @Test
    void goodStrandedWireByAreaPasses() {
        for (Map<String, String> row : Tables.rows("conductors_metric.csv"))
            for (String column : List.of(
                    "R20_max_mohm_per_m_ISO6722_1",
                    "R20_max_mohm_per_m_IEC60228_class5_plain",
                    "R20_max_mohm_per_m_IEC60228_class5_tinned"))
                for (double m : METRES) {
                    if (row.get(column).isEmpty()) continue;
                    double worst = m * Double.parseDouble(row.get(column)) / 1000;
                    assertTrue(
                            worst <= MeterChecks.limit(copper(row.get("mm2_nominal") + "mm2", m, 20)), row + " " + m);
                }
    }

    /** Hot wire by the resistance ratio of IEC 60028 (alpha 0.00393), table row T22: 1.2751 at 90 degrees Celsius. */
    @Test
    void limitFollowsTheTemperature() {
        double cold = MeterChecks.limit(copper("AWG18", 3, 20)) - MeterChecks.PROBES_OHMS;
        double hot = MeterChecks.limit(copper("AWG18", 3, 90)) - MeterChecks.PROBES_OHMS;
        assertEquals(1.2751, hot / cold, 5e-4);
    }

    /** A joint of half an ohm in good solid wire (published wire table, AWG 18: 20.948 mohm/m) is above the limit. */
    @Test
    void badJointFails() {
        for (double m : new double[] {0.3, 1, 3, 8})
            assertTrue(0.020948 * m + 0.5 > MeterChecks.limit(copper("AWG18", m, 20)), m + " m");
    }

    /**
     * Worked by hand from the circuit file and the published wire table (AWG 18, 20.948 mohm/m; AWG 20, 33.301 mohm/m): the
     * 5 V feed from J2/2 through S5A to the rail pressure sensor. The trunk splice lies 0.38 m along BE1; each wire has 0.05 m
     * more at both ends.
     */
    @Test
    void feedOfTheReferenceHarnessByHand() {
        Wire feed = Harness.LARCH.circuit().wires().get("W123");
        assertEquals("AWG18", feed.size().name());
        assertEquals(0.48, Harness.LARCH.layout().metres(feed), 1e-9);
        Stretch stretch = new Stretch.Finder(Harness.LARCH.circuit(), List.of("hood", "left-guard"))
                .through(feed)
                .orElseThrow();
        assertEquals("J2/2", stretch.from());
        double byHand = 0;
        for (Wire w : stretch.wires())
            byHand += Harness.LARCH.layout().metres(w) * (w.size().name().equals("AWG18") ? 0.020948 : 0.033301);
        assertEquals(byHand, stretch.ohms(Harness.LARCH.layout(), 20), 0.003 * byHand);
    }

    /** A stretch leads from one point a meter reaches to another, and each wire begins where the one before ends. */
    @Test
    void stretchesAreChainsThroughSplices() {
        Stretch.Finder finder = new Stretch.Finder(Harness.LARCH.circuit(), List.of());
        int found = 0;
        for (Wire w : Harness.LARCH.circuit().wires().values()) {
            var stretch = finder.through(w);
            if (stretch.isEmpty()) continue;
            found++;
            assertTrue(stretch.get().wires().contains(w));
            List<String> ends = new ArrayList<>();
            stretch.get().wires().forEach(x -> ends.addAll(List.of(x.from(), x.to())));
            ends.remove(stretch.get().from());
            ends.remove(stretch.get().to());
            for (String end : ends) {
                assertTrue(Harness.LARCH.circuit().splices().containsKey(end), w.id() + " passes " + end);
                assertEquals(2, ends.stream().filter(end::equals).count(), w.id() + " at " + end);
            }
        }
        assertEquals(Harness.LARCH.circuit().wires().size(), found);
    }
}
