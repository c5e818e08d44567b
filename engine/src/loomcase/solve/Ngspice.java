package loomcase.solve;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import loomcase.InputProblem;

/**
 * Runs decks through an installed ngspice (https://ngspice.sourceforge.io), an independent simulator: many in one process,
 * two processes at a time.
 */
public final class Ngspice {
    private static final int PROCESSES = 2;
    private static final long MOST_SECONDS_A_DECK = 20;

    private Ngspice() {}

    /**
     * Node volts of every deck.
     *
     * @param decks texts made by {@link SpiceDeck}
     * @param nodes number of nodes of each deck, chassis included
     * @return by deck, volts by node number; empty where ngspice found no operating point in {@value
     *     #MOST_SECONDS_A_DECK} s
     * @throws InputProblem when ngspice is not installed
     * @throws IOException when the folder cannot be used
     */
    public static List<Optional<double[]>> run(Path folder, List<String> decks, List<Integer> nodes)
            throws IOException, InterruptedException {
        for (int i = 0; i < decks.size(); i++) Files.writeString(folder.resolve("d" + i + ".cir"), decks.get(i));
        List<Integer> all = new ArrayList<>();
        for (int i = 0; i < decks.size(); i++) all.add(i);
        pass(folder, all, SpiceDeck.TRANSIENT_START + "\n");
        List<Optional<double[]>> out = new ArrayList<>();
        for (int i : all) out.add(read(folder.resolve("d" + i + ".raw"), nodes.get(i)));
        List<Integer> missing = all.stream().filter(i -> out.get(i).isEmpty()).toList();
        for (int i : missing) Files.deleteIfExists(folder.resolve("d" + i + ".raw"));
        pass(folder, missing, "");
        for (int i : missing) out.set(i, read(folder.resolve("d" + i + ".raw"), nodes.get(i)));
        return out;
    }

    /** @param start command before each operating point, empty to let ngspice step gmin and sources as it does by itself */
    private static void pass(Path folder, List<Integer> decks, String start) throws IOException, InterruptedException {
        ExecutorService workers = Executors.newFixedThreadPool(PROCESSES);
        try {
            List<Future<?>> running = new ArrayList<>();
            for (int w = 0; w < PROCESSES; w++) {
                String name = "batch" + w;
                List<Integer> share = new ArrayList<>();
                for (int i = w; i < decks.size(); i += PROCESSES) share.add(decks.get(i));
                running.add(workers.submit(() -> work(folder, name, share, start)));
            }
            for (Future<?> each : running) each.get();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException problem) throw problem;
            if (e.getCause() instanceof IOException problem) throw problem;
            throw new IllegalStateException(e.getCause());
        } finally {
            workers.shutdownNow();
        }
    }

    /** Runs decks in order; one that takes too long is left without a result and the rest go to a new process. */
    private static Void work(Path folder, String name, List<Integer> decks, String start)
            throws IOException, InterruptedException {
        int next = 0;
        while (next < decks.size()) {
            Process process = launch(folder, name, decks.subList(next, decks.size()), start);
            long since = System.nanoTime();
            while (!process.waitFor(50, TimeUnit.MILLISECONDS)) {
                int before = next;
                while (next < decks.size() && Files.exists(folder.resolve("d" + decks.get(next) + ".raw"))) next++;
                if (next > before) since = System.nanoTime();
                if (System.nanoTime() - since > TimeUnit.SECONDS.toNanos(MOST_SECONDS_A_DECK))
                    process.destroyForcibly().waitFor();
            }
            if (process.exitValue() == 0) return null;
            next++;
        }
        return null;
    }

    private static Process launch(Path folder, String name, List<Integer> decks, String start) throws IOException {
        StringBuilder script = new StringBuilder("* batch\n.control\nset filetype=ascii\n");
        for (int i : decks)
            script.append("source d" + i + ".cir\n" + start + "op\nwrite d" + i + ".raw all\nremcirc\ndestroy all\n");
        script.append("quit 0\n.endc\n.end\n");
        Files.writeString(folder.resolve(name + ".cir"), script);
        try {
            return new ProcessBuilder("ngspice", "-b", name + ".cir")
                    .directory(folder.toFile())
                    .redirectErrorStream(true)
                    .redirectOutput(folder.resolve(name + ".log").toFile())
                    .start();
        } catch (IOException e) {
            throw new InputProblem(
                    "ngspice is not installed; this check compares our solver with it and cannot be left out: "
                            + "apt-get install ngspice",
                    e);
        }
    }

    private static Optional<double[]> read(Path raw, int nodes) throws IOException {
        if (!Files.exists(raw)) return Optional.empty();
        List<String> lines = Files.readAllLines(raw);
        int variables = lines.indexOf("Variables:");
        int values = lines.indexOf("Values:");
        double[] volts = new double[nodes];
        int found = 1;
        for (int i = variables + 1; i < values; i++) {
            String name = lines.get(i).trim().split("\\s+")[1];
            if (!name.matches("v\\(n\\d+\\)")) continue;
            String[] words = lines.get(values + i - variables).trim().split("\\s+");
            volts[Integer.parseInt(name.substring(3, name.length() - 1))] = Double.parseDouble(words[words.length - 1]);
            found++;
        }
        return found == nodes ? Optional.of(volts) : Optional.empty();
    }
}
