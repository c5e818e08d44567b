package loomcase.j1939.log;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Random;
import java.util.TreeMap;
import loomcase.j1939.Code;
import loomcase.j1939.ConversionMethod;
import loomcase.j1939.Dtc;
import loomcase.j1939.Lamps;
import loomcase.j1939.LogProblem;
import loomcase.j1939.TroubleMessage;
import loomcase.j1939.TroubleMessage.Kind;
import org.junit.jupiter.api.Test;

/** Logs drawn at random with fixed seeds: what is written is read back, and damage never breaks the reader. */
class RandomLogsTest {
    private static final DmEncoder ENCODER = new DmEncoder("can0", 0.05);

    @Test
    void whatManySourcesSendAtOnceIsReadBack() {
        Random random = new Random(65226);
        for (int round = 0; round < 300; round++) {
            Map<Integer, TroubleMessage> active = new TreeMap<>();
            Map<Integer, TroubleMessage> stored = new TreeMap<>();
            List<List<String>> transfers = new ArrayList<>();
            for (int i = 1 + random.nextInt(5); i > 0; i--) {
                int source = random.nextInt(254);
                active.put(source, message(random, random.nextInt(12), 0));
                stored.put(source, message(random, 2 + random.nextInt(6), 100_000));
            }
            active.forEach((source, message) -> transfers.add(ENCODER.toAll(0, Kind.DM1, source, message)));
            stored.forEach((source, message) -> transfers.add(ENCODER.toOne(0, Kind.DM2, source, 249, message)));
            CodesRead read = Logs.read(interleaved(transfers, random));
            assertEquals(List.of(), read.warnings());
            assertEquals(
                    List.copyOf(active.keySet()),
                    read.sources().stream().map(SourceCodes::address).toList());
            for (SourceCodes source : read.sources()) {
                Map<String, String> expected = new TreeMap<>();
                put(expected, stored.get(source.address()), CodeSeen.State.STORED);
                put(expected, active.get(source.address()), CodeSeen.State.ACTIVE);
                Map<String, String> found = new TreeMap<>();
                source.codes().forEach(s -> found.put(s.reading().toString(), s.count() + " " + s.state()));
                assertEquals(expected, found);
                assertEquals(
                        active.get(source.address()).lamps(), source.lamps().orElseThrow());
            }
        }
    }

    @Test
    void damagedLogsGiveAnAnswerOrTheDeclaredProblem() {
        Random random = new Random(1939);
        byte[] good = sample(random);
        int answers = 0;
        int problems = 0;
        for (int round = 0; round < 6000; round++) {
            byte[] text = damaged(good, random);
            try {
                CodesRead read = Logs.read(text, ReadOptions.NONE);
                assertTrue(read.frames().total() <= read.lines());
                assertTrue(read.frames().total() > 0);
                read.warnings().forEach(w -> assertTrue(w.toString().length() < 300));
                answers++;
            } catch (LogProblem declared) {
                assertTrue(declared.getMessage().startsWith("test.log: "));
                problems++;
            }
        }
        // Both ways out must have been taken, or the damage is too mild or too strong to test anything.
        assertTrue(answers > 1000 && problems > 20, answers + " answers, " + problems + " problems");
    }

    @Test
    void framesWithRandomContentNeverBreakTheReader() {
        Random random = new Random(60416);
        int[] pgns = {0xECFF, 0xEBFF, 0xEC01, 0xEB01, 0xFECA, 0xFECB, 0xF004, 0xFEEE};
        int[] controls = {16, 17, 19, 32, 255, 0};
        for (int round = 0; round < 60; round++) {
            StringBuilder text = new StringBuilder();
            for (int i = 0; i < 2000; i++) {
                text.append(String.format(
                        "(%d.%06d) can0 18%04X%02X#%02X",
                        i / 20,
                        random.nextInt(1_000_000),
                        pgns[random.nextInt(8)],
                        random.nextInt(3),
                        random.nextBoolean() ? controls[random.nextInt(6)] : random.nextInt(4)));
                String tail = random.nextBoolean() ? "0E0002FFCAFE00" : String.format("%014X", random.nextLong() >>> 8);
                text.append(tail, 0, 2 * random.nextInt(8)).append('\n');
            }
            CodesRead read = Logs.read(text.toString());
            assertEquals(2000, read.lines());
            assertEquals(2000, read.frames().j1939());
        }
    }

    private static TroubleMessage message(Random random, int codes, int spnFrom) {
        Map<Code, Dtc> dtcs = new LinkedHashMap<>();
        while (dtcs.size() < codes) {
            Code code = new Code(spnFrom + 1 + random.nextInt(90_000), random.nextInt(32));
            int count = random.nextInt(128);
            OptionalInt given = count == 127 ? OptionalInt.empty() : OptionalInt.of(count);
            dtcs.put(code, Dtc.of(code, given, ConversionMethod.VERSION_4));
        }
        return new TroubleMessage(Lamps.ofBytes(random.nextInt(256), random.nextInt(256)), List.copyOf(dtcs.values()));
    }

    private static void put(Map<String, String> expected, TroubleMessage message, CodeSeen.State state) {
        message.codes().forEach(dtc -> expected.put(dtc.reading().toString(), dtc.count() + " " + state));
    }

    /** Lines of all transfers, each in its own order, with stamps that rise by a millisecond. */
    private static List<String> interleaved(List<List<String>> transfers, Random random) {
        List<Integer> turns = new ArrayList<>();
        for (int i = 0; i < transfers.size(); i++) {
            turns.addAll(Collections.nCopies(transfers.get(i).size(), i));
        }
        Collections.shuffle(turns, random);
        int[] next = new int[transfers.size()];
        List<String> lines = new ArrayList<>();
        for (int turn : turns) {
            String line = transfers.get(turn).get(next[turn]++);
            lines.add(Logs.at(lines.size() * 0.001, line.substring(line.lastIndexOf(' ') + 1)));
        }
        return lines;
    }

    private static byte[] sample(Random random) {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            lines.addAll(ENCODER.toAll(i, Kind.DM1, i % 2, message(random, i, 0)));
            lines.addAll(ENCODER.toOne(i + 0.5, Kind.DM2, 3, 249, message(random, 3, 0)));
            lines.add(" (00" + i + ".005001)  can0  18FECA00   [8]  40 FF 5B 00 03 01 FF FF   '@.[.....'");
            lines.add("  can0  RX - -  18FEEE00   [8]  82 FF FF FF FF FF FF FF");
            lines.add("(2024-02-0" + (i + 1) + " 01:02:03.5) can1 0CF00400#FF7D7DE015FFF0FF R");
        }
        return String.join("\n", lines).getBytes(StandardCharsets.US_ASCII);
    }

    private static byte[] damaged(byte[] good, Random random) {
        int from = random.nextInt(good.length);
        int to = random.nextInt(8) == 0 ? Math.min(good.length, from + random.nextInt(60)) : good.length;
        byte[] text = java.util.Arrays.copyOfRange(good, random.nextInt(4) == 0 ? from : 0, to);
        String lively = " #()[]{}`'\n\r\tRT.-_:0F\u001b";
        for (int hits = random.nextInt(60); hits > 0 && text.length > 0; hits--) {
            int at = random.nextInt(text.length);
            text[at] = random.nextBoolean()
                    ? (byte) random.nextInt(256)
                    : (byte) lively.charAt(random.nextInt(lively.length()));
        }
        return text;
    }
}
