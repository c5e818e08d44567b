package loomcase.j1939.log;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.j1939.TestData;
import org.junit.jupiter.api.Test;

/** What general-purpose J1939 libraries expect of their own test frames; each source stands in its row. */
class LibraryFramesTest {
    @Test
    void framesOfOtherLibrariesGiveTheCodesAndLampsTheyExpect() {
        List<String[]> rows = TestData.rows("library_frames.csv");
        assertEquals(12, rows.size());
        for (String[] row : rows) {
            String what = String.join(",", row);
            CodesRead read = Logs.read(Logs.untimed(row[2]));
            assertEquals(1, read.sources().size(), what);
            SourceCodes source = read.sources().get(0);
            assertEquals(Integer.parseInt(row[1]), source.address(), what);
            assertEquals(row[3], codes(source), what);
            assertEquals(row[4], source.lamps().map(LibraryFramesTest::lamps).orElse(""), what);
            CodeSeen.State state = row[0].equals("DM1") ? CodeSeen.State.ACTIVE : CodeSeen.State.STORED;
            source.codes().forEach(seen -> assertEquals(state, seen.state(), what));
            assertEquals(List.of(), read.warnings(), what);
        }
    }

    @Test
    void theEncoderSendsTheSameBroadcastAsAnotherLibrary() {
        // Source: Open-Agriculture/AgIsoStack-plus-plus test/diagnostic_protocol_tests.cpp, MIT: three codes, no lamp
        // unit.
        Lamp unused = new Lamp(Lamp.State.NOT_AVAILABLE, Lamp.Flash.NONE);
        Lamps lamps = new Lamps(unused, unused, unused, unused);
        List<String> lines = new DmEncoder("can0", 0.05)
                .toAll(
                        0,
                        loomcase.j1939.TroubleMessage.Kind.DM1,
                        0xAA,
                        new loomcase.j1939.TroubleMessage(
                                lamps, List.of(Logs.dtc(1234, 31, 1), Logs.dtc(567, 2, 1), Logs.dtc(8910, 12, 1))));
        assertEquals(
                List.of(
                        "(000.000000) can0 1CECFFAA#200E0002FFCAFE00",
                        "(000.050000) can0 1CEBFFAA#01FFFFD2041F0137",
                        "(000.100000) can0 1CEBFFAA#02020201CE220C01"),
                lines);
    }

    private static String codes(SourceCodes source) {
        return source.codes().stream()
                .map(seen -> seen.reading() + "/"
                        + (seen.count().isPresent() ? seen.count().getAsInt() : "-"))
                .collect(Collectors.joining(" "));
    }

    private static String lamps(Lamps lamps) {
        return Stream.of(lamps.protect(), lamps.amberWarning(), lamps.redStop(), lamps.malfunction())
                .map(lamp -> "O1EN".charAt(lamp.state().ordinal())
                        + ""
                        + "SFR-".charAt(lamp.flash().ordinal()))
                .collect(Collectors.joining(" "))
                .toUpperCase(Locale.ROOT);
    }
}
