package loomcase.drill;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import loomcase.journal.EntryCheck;
import loomcase.journal.Fact;
import loomcase.model.PlaceId;
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

    @Test
    void partsArePricedByTheCircuitFile() {
        assertEquals(
                new BigDecimal("85.00"),
                REPAIRS.bill(Fact.Deed.REPLACED, new PlaceId(PlaceId.Kind.DEVICE, "OPS"))
                        .parts());
        assertEquals(
                new BigDecimal("140.00"),
                REPAIRS.bill(Fact.Deed.REPLACED, new PlaceId(PlaceId.Kind.BRANCH, "B2"))
                        .parts());
        assertEquals(
                new BigDecimal("380.00"),
                REPAIRS.bill(Fact.Deed.REPLACED, new PlaceId(PlaceId.Kind.BRANCH, "B1"))
                        .parts());
        Bill both = new Bill(90, new BigDecimal("4.50"));
        assertEquals(
                new BigDecimal("184.50"),
                both.money(Shops.TEACHING.circuit().costs()),
                "an hour and a half at 120.00 and a terminal");
    }
}
