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
            Map<Integer, Drawn> active = new TreeMap<>();
            Map<Integer, Drawn> stored = new TreeMap<>();
            for (int i = 1 + random.nextInt(5); i > 0; i--) {
                int source = random.nextInt(254);
                active.put(source, draw(random, random.nextInt(12), 0));
                stored.put(source, draw(random, 2 + random.nextInt(6), 1 << 18));
            }
            List<List<String>> transfers = new ArrayList<>();
            active.forEach((source, drawn) -> transfers.add(ENCODER.toAll(0, Kind.DM1, source, drawn.message())));
            stored.forEach((source, drawn) -> transfers.add(ENCODER.toOne(0, Kind.DM2, source, 254, drawn.message())));
            CodesRead read = Logs.read(interleaved(transfers, random));
            assertEquals(List.of(), read.warnings());
            assertEquals(
                    List.copyOf(active.keySet()),
                    read.sources().stream().map(SourceCodes::address).toList());
            for (SourceCodes source : read.sources()) {
                Drawn now = active.get(source.address());
                Map<Code, String> expected = new TreeMap<>();
                stored.get(source.address()).counts().forEach((code, count) -> expected.put(code, count + " STORED"));
                now.counts().forEach((code, count) -> expected.put(code, count + " ACTIVE"));
                Map<Code, String> found = new TreeMap<>();
                source.codes().forEach(s -> found.put(s.reading().code().orElseThrow(), s.count() + " " + s.state()));
                assertEquals(expected, found);
                assertEquals(now.message().lamps(), source.lamps().orElseThrow());
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

    /** What was drawn, and the message that carries it; the answer is compared with the draw, not with a second decoding. */
    private record Drawn(Map<Code, OptionalInt> counts, TroubleMessage message) {}

    private static Drawn draw(Random random, int codes, int spnFrom) {
        Map<Code, OptionalInt> counts = new LinkedHashMap<>();
        while (counts.size() < codes) {
            Code code = new Code(spnFrom + 1 + random.nextInt((1 << 18) - 1), random.nextInt(32));
            int count = random.nextInt(128);
            counts.put(code, count == 127 ? OptionalInt.empty() : OptionalInt.of(count));
        }
        List<Dtc> dtcs = new ArrayList<>();
        counts.forEach((code, count) -> dtcs.add(Dtc.of(code, count, ConversionMethod.VERSION_4)));
        return new Drawn(counts, new TroubleMessage(Lamps.ofBytes(random.nextInt(256), random.nextInt(256)), dtcs));
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
            lines.addAll(ENCODER.toAll(i, Kind.DM1, i % 2, draw(random, i, 0).message()));
            lines.addAll(
                    ENCODER.toOne(i + 0.5, Kind.DM2, 3, 249, draw(random, 3, 0).message()));
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
