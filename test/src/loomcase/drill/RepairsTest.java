package loomcase.drill;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import java.util.List;
import loomcase.journal.EntryCheck;
import loomcase.journal.Fact;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which work takes which fault away on the teaching harness, and what it costs by the prices of its file. */
class RepairsTest {
    private static final Repairs REPAIRS = new Repairs(Shops.TEACHING.circuit(), Shops.TEACHING.layout());
    private static final EntryCheck CHECK = new EntryCheck(Shops.TEACHING.circuit());

    @ParameterizedTest
    @CsvSource({
        "REPAIRED, S2, splice.open S2, true",
        "REPAIRED, S1, splice.open S2, false",
        "RESEATED, S2, splice.open S2, false",
        "CLEANED, S2, splice.open S2, false",
        "REPAIRED, W8, splice.leg-open S2 W8, true",
        "REPLACED, B1, splice.open S2, true",
        "REPLACED, B2, splice.open S2, false",
        "REPAIRED, C1/1, contact.open C1/1, true",
        "REPAIRED, C1/2, contact.open C1/1, false",
        "REPLACED, C1, contact.open C1/1, true",
        "REPLACED, C2, contact.open C1/1, false",
        "REPLACED, ECT, contact.open C1/1, false",
        "RESEATED, C1/1, contact.backed-out C1/1, true",
        "CLEANED, C1/1, contact.backed-out C1/1, false",
        "RESEATED, C1, common.unplugged C1, true",
        "CLEANED, C1, common.wet-connector C1, true",
        "REPLACED, ECT, device.ntc.open ECT element open, true",
        "REPLACED, ECT, condition.engine ECT overheat, false",
        "REPAIRED, W11, wire.short-neighbour B2 W11–W8, true",
        "REPAIRED, W8, wire.short-neighbour B2 W11–W8, true",
        "REPAIRED, W12, wire.short-neighbour B2 W11–W8, false",
        "REPAIRED, B2, wire.short-neighbour B2 W11–W8, true"
    })
    void workMendsWhatItIsTheRemedyFor(Fact.Deed deed, String place, String fault, boolean mends) {
        Planted planted = new Engine(Shops.TEACHING, Shops.truth("wire.open W12", Showing.ALWAYS, 1))
                .made(fault)
                .orElseThrow();
        assertEquals(mends, REPAIRS.mends(deed, CHECK.names().spot(place).place(), planted));
    }

    private static Planted made(String fault) {
        return new Engine(Shops.TEACHING, Shops.truth("wire.open W12", Showing.ALWAYS, 1))
                .made(fault)
                .orElseThrow();
    }

    private static Bill bill(Fact.Deed deed, String place, Planted... faults) {
        return REPAIRS.bill(deed, CHECK.names().spot(place).place(), List.of(faults));
    }

    /**
     * By the prices of the file and the minutes of the repair costs: a loom 20 minutes, a piece let into a wire 10 minutes and
     * two splices of 6.00. A branch is no new section (60 minutes, 140.00) because one wire of it was worn.
     */
    @Test
    void aRepairedBranchCostsWhatWasMendedInIt() {
        Bill worn = bill(Fact.Deed.REPAIRED, "B2", made("wire.open W12"));
        assertEquals(bill(Fact.Deed.REPAIRED, "W12"), worn);
        assertEquals(30, worn.minutes());
        Bill touching = bill(Fact.Deed.REPAIRED, "B2", made("wire.short-neighbour B2 W11–W8"));
        assertEquals(40, touching.minutes());
        assertEquals(worn.parts().add(worn.parts()), touching.parts());
        assertEquals(new Bill(20, BigDecimal.ZERO), bill(Fact.Deed.REPAIRED, "B2"), "opened for nothing");
        assertEquals(new Bill(20, BigDecimal.ZERO), bill(Fact.Deed.REPAIRED, "B2", made("contact.open C1/1")));
    }

    /**
     * Twelve wires run in B1: cut through they are 20 + 12 * 10 minutes at 120.00 an hour and 24 splices of 6.00, 424.00,
     * less than the harness with 680.00. In B2 the section with 260.00 is the most that mending may cost.
     */
    @Test
    void aBranchCutThroughIsMendedWireByWireUnlessASectionCostsLess() {
        Bill cut = bill(Fact.Deed.REPAIRED, "B1", made("common.branch-cut B1"));
        assertEquals(new Bill(140, new BigDecimal("144.00")), cut);
        assertEquals(bill(Fact.Deed.REPLACED, "B2"), bill(Fact.Deed.REPAIRED, "B2", made("common.branch-cut B2")));
    }

    @Test
    void partsArePricedByTheCircuitFile() {
        assertEquals(new BigDecimal("85.00"), bill(Fact.Deed.REPLACED, "OPS").parts());
        assertEquals(new BigDecimal("140.00"), bill(Fact.Deed.REPLACED, "B2").parts());
        assertEquals(new BigDecimal("380.00"), bill(Fact.Deed.REPLACED, "B1").parts());
        Bill both = new Bill(90, new BigDecimal("4.50"));
        assertEquals(
                new BigDecimal("184.50"),
                both.money(Shops.TEACHING.circuit().costs()),
                "an hour and a half at 120.00 and a terminal");
    }
}
