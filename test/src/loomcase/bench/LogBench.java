package loomcase.bench;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.Random;
import loomcase.j1939.CanId;
import loomcase.j1939.Code;
import loomcase.j1939.ConversionMethod;
import loomcase.j1939.Dtc;
import loomcase.j1939.Lamps;
import loomcase.j1939.Pgn;
import loomcase.j1939.TroubleMessage;
import loomcase.j1939.log.CodesRead;
import loomcase.j1939.log.DmEncoder;
import loomcase.j1939.log.LogReader;
import loomcase.j1939.log.Progress;
import loomcase.j1939.log.ReadOptions;

/**
 * Writes a large invented log and reads it with little memory.
 *
 * <pre>
 * mvn -q -o test-compile
 * java -cp target/classes:target/test-classes loomcase.bench.LogBench write /tmp/big.log 1024
 * java -Xmx256m -cp target/classes:target/test-classes loomcase.bench.LogBench read /tmp/big.log 3
 * </pre>
 *
 * The last number is how often it is read; the first reading is cold. Printed are megabytes (of a million bytes) a second and
 * the highest heap use that the virtual machine saw.
 */
public final class LogBench {
    private static final DmEncoder ENCODER = new DmEncoder("can0", 0.05);
    private static final int FRAMES_A_SECOND = 1500;

    private LogBench() {}

    public static void main(String[] arguments) throws IOException {
        boolean known = arguments.length == 3 && List.of("write", "read").contains(arguments[0]);
        if (!known) {
            System.err.println("usage: LogBench write FILE MEGABYTES | read FILE TIMES");
            return;
        }
        Path file = Path.of(arguments[1]);
        int number = Integer.parseInt(arguments[2]);
        if (arguments[0].equals("write")) {
            write(file, number * 1_000_000L);
        } else {
            for (int i = 0; i < number; i++) {
                read(file);
            }
        }
    }

    private static void write(Path file, long bytes) throws IOException {
        Random random = new Random(1939);
        long written = 0;
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), 1 << 20)) {
            for (int second = 0; written < bytes; second++) {
                List<String> lines = second(1_700_000_000 + second, second, random);
                byte[] text = (String.join("\n", lines) + "\n").getBytes(StandardCharsets.US_ASCII);
                out.write(text);
                written += text.length;
            }
        }
        System.out.println(file + ": " + written + " bytes");
    }

    /** One second of an invented truck: ordinary traffic, two senders with codes that come and go, one of them in a BAM. */
    private static List<String> second(double start, int second, Random random) {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < FRAMES_A_SECOND; i++) {
            int pgn = i % 15 == 0 ? Pgn.ENGINE_CONTROLLER_1 : 0xFE00 + random.nextInt(0xC0);
            byte[] data = new byte[8];
            random.nextBytes(data);
            lines.add(ENCODER.line(
                    start + (double) i / FRAMES_A_SECOND, new CanId(6, pgn, random.nextInt(8), CanId.EVERYBODY), data));
        }
        List<Dtc> codes = new ArrayList<>();
        for (int i = 0; i < second / 10 % 8; i++) {
            codes.add(Dtc.of(new Code(100 + i, 3), OptionalInt.of(1 + i), ConversionMethod.VERSION_4));
        }
        TroubleMessage message = new TroubleMessage(Lamps.OFF, codes);
        lines.addAll(ENCODER.toAll(start, TroubleMessage.Kind.DM1, 0, message));
        lines.addAll(ENCODER.toAll(start, TroubleMessage.Kind.DM1, 3, message));
        lines.sort(null);
        return lines;
    }

    private static void read(Path file) throws IOException {
        long begun = System.nanoTime();
        CodesRead read = LogReader.read(file, Progress.NONE, ReadOptions.NONE);
        double seconds = (System.nanoTime() - begun) / 1e9;
        long peak = 0;
        for (MemoryPoolMXBean pool : ManagementFactory.getMemoryPoolMXBeans()) {
            peak += pool.getType() == MemoryType.HEAP ? pool.getPeakUsage().getUsed() : 0;
        }
        System.out.printf(
                Locale.ROOT,
                "%.0f MB/s, %d frames in %.2f s, %d sources, peak heap %.0f MB of %.0f MB allowed%n",
                Files.size(file) / 1e6 / seconds,
                read.frames().total(),
                seconds,
                read.sources().size(),
                peak / 1e6,
                Runtime.getRuntime().maxMemory() / 1e6);
    }
}
