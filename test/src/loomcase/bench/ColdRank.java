package loomcase.bench;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Wall time and peak memory of a cold {@code rank} on the reference harness, beside a bare JVM start in the same run.
 *
 * <p>Run from the project folder after {@code mvn verify}: {@code java -cp target/test-classes loomcase.bench.ColdRank 7}. Runs
 * alternate, so that other load falls on both; the figure to quote is the ratio. Linux only (peak memory from /proc).
 */
public final class ColdRank {
    private ColdRank() {}

    /**
     * @param millis to the end
     * @param first to the first bytes of the answer, the same as to the end where there is none
     * @param mebibytes peak memory
     */
    private record Run(double millis, double first, double mebibytes) {}

    public static void main(String[] arguments) throws IOException, InterruptedException {
        int times = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 7;
        List<String> bare = List.of("java", "-XX:+UseSerialGC", "-cp", "target/test-classes", Bare.class.getName());
        List<String> rank = List.of(
                "engine/bin/loomcase",
                "rank",
                "--circuit",
                "circuits/larch-13.json",
                "--log",
                "demo-cases/five-volt-splice-open.log");
        run(rank);
        List<Run> bareRuns = new ArrayList<>();
        List<Run> rankRuns = new ArrayList<>();
        for (int i = 0; i < times; i++) {
            bareRuns.add(run(bare));
            rankRuns.add(run(rank));
        }
        System.out.printf(
                Locale.ROOT,
                "suspects on the screen %22.0f ms above the bare start%n",
                median(rankRuns.stream().mapToDouble(Run::first).toArray()) - millis(bareRuns));
        print("bare JVM start", bareRuns);
        print("cold rank, larch-13", rankRuns);
        System.out.printf(
                Locale.ROOT,
                "ratio of medians: time %.1f, memory %.1f; rank above bare start: %.0f ms%n",
                millis(rankRuns) / millis(bareRuns),
                mebibytes(rankRuns) / mebibytes(bareRuns),
                millis(rankRuns) - millis(bareRuns));
    }

    private static Run run(List<String> command) throws IOException, InterruptedException {
        long start = System.nanoTime();
        Process process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        double[] first = {0};
        Thread reader = new Thread(() -> {
            try (InputStream in = process.getInputStream()) {
                if (in.read() >= 0) first[0] = (System.nanoTime() - start) / 1e6;
                in.transferTo(OutputStream.nullOutputStream());
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
        if (process.waitFor() != 0) throw new IOException(command + " ended with " + process.exitValue());
        double millis = (System.nanoTime() - start) / 1e6;
        reader.join();
        return new Run(millis, first[0] == 0 ? millis : first[0], peak);
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

    private static double mebibytes(List<Run> runs) {
        return median(runs.stream().mapToDouble(Run::mebibytes).toArray());
    }

    private static void print(String name, List<Run> runs) {
        System.out.printf(
                Locale.ROOT,
                "%-22s median %7.0f ms, peak %5.0f MiB, of %d%n",
                name,
                millis(runs),
                mebibytes(runs),
                runs.size());
    }

    /** A program that does nothing. */
    public static final class Bare {
        private Bare() {}

        public static void main(String[] arguments) {}
    }
}
