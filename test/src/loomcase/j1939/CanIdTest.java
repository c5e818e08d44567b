package loomcase.j1939;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class CanIdTest {
    @Test
    void identifiersComeApartAsInTheKickstartGuideOfCanUtils() {
        // Source: linux-can/can-utils can-j1939-kickstart.md, identifiers with the PGN and addresses it names for them.
        assertEquals(new CanId(6, 0x02300, 0x40, 255), CanId.ofBits(0x1823FF40));
        assertEquals(new CanId(6, 0x02300, 0x40, 0x41), CanId.ofBits(0x18234140));
        assertEquals(new CanId(6, 0x3FFFF, 0x80, 255), CanId.ofBits(0x1BFFFF80));
        assertEquals(new CanId(6, 0x12300, 0x80, 255), CanId.ofBits(0x1923FF80));
        assertEquals(new CanId(6, 0x12300, 0x80, 0x40), CanId.ofBits(0x19234080));
    }

    @Test
    void transportAndTroubleMessagesHaveTheirPublishedNumbers() {
        // Source: identifiers in juergenH87/python-can-j1939 test/test_ecu.py and nmfta-repo/pretty_j1939 tests.
        assertEquals(Pgn.TRANSPORT_CONTROL, CanId.pgn(0x1CECFF01));
        assertEquals(Pgn.TRANSPORT_DATA, CanId.pgn(0x1CEB9B90));
        assertEquals(Pgn.DM1, CanId.pgn(0x18FECA00));
        assertEquals(Pgn.DM2, CanId.pgn(0x18FECB00));
        assertEquals(Pgn.ENGINE_CONTROLLER_1, CanId.pgn(0x0CF00400));
        assertEquals(Pgn.ENGINE_TEMPERATURE_1, CanId.pgn(0x18FEEE00));
        assertEquals(0x9B, CanId.destination(0x1CEB9B90));
    }

    @Test
    void everyIdentifierComesBack() {
        Random random = new Random(29);
        for (int i = 0; i < 50_000; i++) {
            int id = random.nextInt(1 << 29);
            assertEquals(id, CanId.ofBits(id).bits());
        }
    }

    @Test
    void bothDataPageBitsMeanAnotherProtocol() {
        assertTrue(CanId.foreign(0x1BFFFF80));
    }

    @Test
    void anAddressInABroadcastGroupIsRefused() {
        Exception refused = assertThrows(IllegalArgumentException.class, () -> new CanId(6, Pgn.DM1, 0, 3));
        assertEquals("PGN 65226 goes to everybody, not to 3", refused.getMessage());
    }
}
