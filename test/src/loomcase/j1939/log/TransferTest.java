package loomcase.j1939.log;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import loomcase.j1939.TroubleMessage;
import loomcase.j1939.TroubleMessage.Kind;
import org.junit.jupiter.api.Test;

class TransferTest {
    // Source: nmfta-repo/pretty_j1939 tests/test_diagnostic_messages.py (Apache-2.0): 4 codes of source 0.
    private static final String START = "18ECFF00#20120003FFCAFE00";
    private static final String ONE = "18EBFF00#0100FF5B0003015C";
    private static final String TWO = "18EBFF00#020004025D000503";
    private static final String THREE = "18EBFF00#035E000604FFFFFF";
    private static final String FOUR_CODES = "91/3x1 ACTIVE, 92/4x2 ACTIVE, 93/5x3 ACTIVE, 94/6x4 ACTIVE";

    @Test
    void aBroadcastOfSeveralFramesIsPutTogether() {
        CodesRead read = Logs.read(timed(0.1, START, ONE, TWO, THREE));
        assertEquals(FOUR_CODES, Logs.codes(read));
        assertEquals(List.of(), read.warnings());
    }

    @Test
    void broadcastsOfTwoSourcesMayBeInterleaved() {
        List<String> lines = timed(
                0.05,
                START,
                START.replace("FF00#", "FF21#"),
                ONE,
                ONE.replace("FF00#", "FF21#"),
                TWO,
                TWO.replace("FF00#", "FF21#"),
                THREE,
                THREE.replace("FF00#", "FF21#"));
        CodesRead read = Logs.read(lines);
        assertEquals(2, read.sources().size());
        assertEquals(FOUR_CODES, Logs.codes(read.sources().get(0)));
        assertEquals(FOUR_CODES, Logs.codes(read.sources().get(1)));
        assertEquals(List.of(), read.warnings());
    }

    @Test
    void oneSourceMayBroadcastAndAnswerTwoReceiversAtOnce() {
        DmEncoder encoder = new DmEncoder("can0", 0.05);
        List<List<String>> transfers = List.of(
                encoder.toAll(0, Kind.DM1, 0, Logs.message(Logs.dtc(1, 1, 1), Logs.dtc(2, 2, 2))),
                encoder.toOne(0, Kind.DM2, 0, 0xF9, Logs.message(Logs.dtc(3, 3, 3), Logs.dtc(4, 4, 4))),
                encoder.toOne(0, Kind.DM2, 0, 0x21, Logs.message(Logs.dtc(5, 5, 5), Logs.dtc(6, 6, 6))));
        List<String> mixed = new ArrayList<>();
        transfers.forEach(mixed::addAll);
        // By time stamp, so that the frames of the three transfers alternate.
        mixed.sort(null);
        CodesRead read = Logs.read(mixed);
        assertEquals(
                "1/1x1 ACTIVE, 2/2x2 ACTIVE, 3/3x3 STORED, 4/4x4 STORED, 5/5x5 STORED, 6/6x6 STORED", Logs.codes(read));
        assertEquals(List.of(), read.warnings());
    }

    @Test
    void aTransferByAppointmentIsPutTogether() {
        // Source: frames of juergenH87/python-can-j1939 test/test_ecu.py (MIT), peer to peer, with PGN and body of a
        // DM2.
        CodesRead read = Logs.read(timed(
                0.1,
                "00EC0201#10120003FFCBFE00",
                "1CEC0102#110101FFFFCBFE00",
                "00EB0201#0100FF5B0003015C",
                "1CEC0102#110102FFFFCBFE00",
                "00EB0201#020004025D000503",
                "1CEC0102#110103FFFFCBFE00",
                "00EB0201#035E000604FFFFFF",
                "1CEC0102#13120003FFCBFE00"));
        assertEquals(FOUR_CODES.replace("ACTIVE", "STORED"), Logs.codes(read));
        assertEquals(1, read.sources().get(0).address());
        assertEquals(List.of(), read.warnings());
    }

    @Test
    void aReceiverMayAskForAPacketAgain() {
        CodesRead read = Logs.read(timed(
                0.1,
                "1CEC0200#10120003FFCBFE00",
                "1CEC0002#110301FFFFCBFE00",
                "1CEB0200#0100FF5B0003015C",
                "1CEB0200#02FFFFFFFFFFFFFF",
                "1CEC0002#110202FFFFCBFE00",
                "1CEB0200#020004025D000503",
                "1CEB0200#035E000604FFFFFF"));
        assertEquals(FOUR_CODES.replace("ACTIVE", "STORED"), Logs.codes(read));
    }

    @Test
    void aGapOver750MillisecondsEndsABroadcast() {
        assertEquals(FOUR_CODES, Logs.codes(Logs.read(timed(0.749, START, ONE, TWO, THREE))));
        CodesRead late = Logs.read(timed(0.751, START, ONE, TWO, THREE));
        assertEquals(List.of(), late.sources());
        assertEquals(1, Logs.warned(late, Warning.Kind.TRANSFER_TIMED_OUT));
        assertEquals(0, Logs.warned(late, Warning.Kind.TRANSFER_WITHOUT_START));
        assertEquals(1, Logs.warned(late, Warning.Kind.NO_TROUBLE_MESSAGES));
    }

    @Test
    void anAppointmentMayPauseLongerThanABroadcast() {
        String[] frames = {"1CEC0200#100E0002FFCBFE00", "1CEB0200#0100FFD2041F0137", "1CEB0200#02020201CE220C01"};
        assertEquals(1, Logs.read(timed(1.2, frames)).sources().size());
        assertEquals(1, Logs.warned(Logs.read(timed(1.3, frames)), Warning.Kind.TRANSFER_TIMED_OUT));
    }

    @Test
    void anAbortFromEitherSideEndsTheTransfer() {
        for (String abort : List.of("1CEC0200#FF01FFFFFFCBFE00", "1CEC0002#FF01FFFFFFCBFE00")) {
            CodesRead read = Logs.read(timed(
                    0.1, "1CEC0200#100E0002FFCBFE00", "1CEB0200#0100FFD2041F0137", abort, "1CEB0200#02020201CE220C01"));
            assertEquals(List.of(), read.sources());
            assertEquals(1, Logs.warned(read, Warning.Kind.TRANSFER_ABORTED));
        }
    }

    @Test
    void endOfMessageBeforeTheLastPacketMeansAHoleInTheRecording() {
        CodesRead read = Logs.read(
                timed(0.1, "1CEC0200#100E0002FFCBFE00", "1CEB0200#0100FFD2041F0137", "1CEC0002#130E0002FFCBFE00"));
        assertEquals(1, Logs.warned(read, Warning.Kind.TRANSFER_INCOMPLETE));
        assertEquals(List.of(), read.sources());
    }

    @Test
    void aMissingOrRepeatedPacketSpoilsABroadcast() {
        for (List<String> frames : List.of(
                List.of(START, ONE, THREE), List.of(START, ONE, ONE, TWO, THREE), List.of(START, TWO, ONE, THREE))) {
            CodesRead read = Logs.read(timed(0.1, frames.toArray(String[]::new)));
            assertEquals(List.of(), read.sources(), frames.toString());
            assertEquals(1, Logs.warned(read, Warning.Kind.TRANSFER_OUT_OF_ORDER), frames.toString());
        }
    }

    @Test
    void sizesThatDoNotAgreeAreRefused() {
        for (String start : List.of(
                "18ECFF00#20120004FFCAFE00", // 18 bytes need 3 packets
                "18ECFF00#20080002FFCAFE00", // 8 bytes fit a frame
                "18ECFF00#20FA0700FFCAFE00", // 2042 bytes are too many
                "18EC0200#20120003FFCAFE00", // a broadcast to one
                "18ECFF00#10120003FFCAFE00")) { // an appointment with all
            CodesRead read = Logs.read(timed(0.1, start, ONE, TWO, THREE));
            assertEquals(1, Logs.warned(read, Warning.Kind.TRANSFER_MALFORMED), start);
            assertEquals(List.of(), read.sources(), start);
        }
    }

    @Test
    void packetsWithoutAStartAreCountedAndTheNextMessageIsRead() {
        CodesRead read = Logs.read(timed(0.1, TWO, THREE, START, ONE, TWO, THREE));
        assertEquals(2, Logs.warned(read, Warning.Kind.TRANSFER_WITHOUT_START));
        assertEquals(FOUR_CODES, Logs.codes(read));
    }

    @Test
    void aNewStartGivesUpTheOldTransfer() {
        CodesRead read = Logs.read(timed(0.1, START, ONE, START, ONE, TWO, THREE));
        assertEquals(1, Logs.warned(read, Warning.Kind.TRANSFER_INCOMPLETE));
        assertEquals(
                1,
                read.warning(Warning.Kind.TRANSFER_INCOMPLETE)
                        .orElseThrow()
                        .firstLine()
                        .orElseThrow());
        assertEquals(FOUR_CODES, Logs.codes(read));
    }

    @Test
    void aLogThatEndsInsideATransferSaysSo() {
        CodesRead read = Logs.read(timed(0.1, START, ONE, TWO));
        assertEquals(1, Logs.warned(read, Warning.Kind.TRANSFER_INCOMPLETE));
    }

    @Test
    void transfersOfOtherGroupsAreFollowedInSilence() {
        // Source: VIN broadcast of nmfta-repo/pretty_j1939 tests/test_j1939_tp.py (Apache-2.0).
        CodesRead read = Logs.read(timed(
                0.1,
                "18ECFF00#20110003FFEBFE00",
                "18EBFF00#0131323334353637",
                "18EBFF00#0238393031323334",
                "18EBFF00#03353637FFFFFFFF",
                Logs.NO_CODE));
        assertEquals(List.of(), read.warnings());
    }

    @Test
    void theLongestMessageIsRead() {
        loomcase.j1939.Dtc[] codes = new loomcase.j1939.Dtc[TroubleMessage.MAX_CODES];
        for (int i = 0; i < codes.length; i++) {
            codes[i] = Logs.dtc(1000 + i, i % 32, 1);
        }
        List<String> lines = new DmEncoder("can0", 0.05).toAll(0, Kind.DM1, 3, Logs.message(codes));
        assertEquals(
                TroubleMessage.MAX_CODES,
                Logs.read(lines).sources().get(0).codes().size());
    }

    private static List<String> timed(double gapSeconds, String... frames) {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < frames.length; i++) {
            lines.add(Logs.at(100 + i * gapSeconds, frames[i]));
        }
        return lines;
    }
}
