package loomcase.bench;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * Wall time and peak memory of a cold {@code rank} on the reference harness, beside a bare JVM start in the same run: of a
 * complaint never met, with nothing kept but what came with the program, and of one met before.
 *
 * <p>Run from the project folder after {@code mvn verify}: {@code java -cp target/test-classes loomcase.bench.ColdRank 7}, with
 * the codes of another new complaint behind it if wanted. Runs alternate, so that other load falls on both; the figure to
 * quote is the ratio. Linux only (peak memory from /proc).
 */
public final class ColdRank {
    private static final List<String> MET = rank("--log", "demo-cases/five-volt-splice-open.log");

    /** Two codes for which two faults at once are weighed and planned for beside single ones. */
    private static final String NEW = "157/3,94/4";

    private ColdRank() {}

    private static List<String> rank(String option, String value) {
        return List.of("engine/bin/loomcase", "rank", "--circuit", "circuits/larch-13.json", option, value);
    }

    /**
     * @param millis to the end
     * @param first to the first bytes of the answer, the same as to the end where there is none
     * @param last to its last bytes; what is kept for the next command is written after them
     * @param mebibytes peak memory
     */
    private record Run(double millis, double first, double last, double mebibytes) {}

    public static void main(String[] arguments) throws IOException, InterruptedException {
        int times = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 7;
        List<String> fresh = rank("--codes", arguments.length > 1 ? arguments[1] : NEW);
        List<String> bare = List.of("java", "-XX:+UseSerialGC", "-cp", "target/test-classes", Bare.class.getName());
        Path kept = Files.createTempDirectory("loomcase");
        run(kept, MET);
        List<Run> bareRuns = new ArrayList<>();
        List<Run> newRuns = new ArrayList<>();
        List<Run> metRuns = new ArrayList<>();
        for (int i = 0; i < times; i++) {
            bareRuns.add(run(kept, bare));
            Path empty = Files.createTempDirectory("loomcase");
            newRuns.add(run(empty, fresh));
            delete(empty);
            metRuns.add(run(kept, MET));
        }
        delete(kept);
        print("bare JVM start", bareRuns, bareRuns);
        print("a complaint never met", newRuns, bareRuns);
        print("a complaint met before", metRuns, bareRuns);
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path p : all.sorted(Comparator.reverseOrder()).toList()) Files.delete(p);
        }
    }

    private static Run run(Path cache, List<String> command) throws IOException, InterruptedException {
        ProcessBuilder builder = new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT);
        builder.environment().put("XDG_CACHE_HOME", cache.toString());
        long start = System.nanoTime();
        Process process = builder.start();
        double[] first = {0};
        double[] last = {0};
        Thread reader = new Thread(() -> {
            try (InputStream in = process.getInputStream()) {
                byte[] some = new byte[8192];
                while (in.read(some) >= 0) {
                    last[0] = (System.nanoTime() - start) / 1e6;
                    if (first[0] == 0) first[0] = last[0];
                }
            } catch (IOException gone) {
                return;
            }
        });
        reader.start();
        double peak = 0;
        while (process.isAlive()) {
            peak = Math.max(peak, peakMebibytes(process.pid()));
            Thread.sleep(2);
        }
        if (process.waitFor() > 1) throw new IOException(command + " ended with " + process.exitValue());
        double millis = (System.nanoTime() - start) / 1e6;
        reader.join();
        return new Run(millis, first[0] == 0 ? millis : first[0], first[0] == 0 ? millis : last[0], peak);
    }

    private static double peakMebibytes(long pid) {
        try {
            for (String line : Files.readAllLines(Path.of("/proc/" + pid + "/status")))
                if (line.startsWith("VmHWM:")) return Double.parseDouble(line.replaceAll("\\D", "")) / 1024;
        } catch (IOException gone) {
            return 0;
        }
        return 0;
    }

    private static double median(double[] values) {
        Arrays.sort(values);
        return values[values.length / 2];
    }

    private static double millis(List<Run> runs) {
        return median(runs.stream().mapToDouble(Run::millis).toArray());
    }

    private static void print(String name, List<Run> runs, List<Run> bare) {
        System.out.printf(
                Locale.ROOT,
                "%-24s median %5.0f ms, peak %4.0f MiB; above the bare start: suspects on the screen %5.0f ms, the whole answer %5.0f ms, end %5.0f ms%n",
                name,
                millis(runs),
                median(runs.stream().mapToDouble(Run::mebibytes).toArray()),
                median(runs.stream().mapToDouble(Run::first).toArray()) - millis(bare),
                median(runs.stream().mapToDouble(Run::last).toArray()) - millis(bare),
                millis(runs) - millis(bare));
    }

    /** A program that does nothing. */
    public static final class Bare {
        private Bare() {}

        public static void main(String[] arguments) {}
    }
}
