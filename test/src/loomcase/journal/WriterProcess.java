package loomcase.journal;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;

/** A program of its own that adds notes to a case, one output line for each that it was told is written. */
final class WriterProcess {
    private WriterProcess() {}

    /** Arguments: case file, name of the writer, number of notes; or case file and {@code hold}, to keep the lock. */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        Path file = Path.of(arguments[0]);
        if (arguments[1].equals("hold")) {
            hold(file, System.out);
            return;
        }
        for (int i = 0; i < Integer.parseInt(arguments[2]); i++) {
            Entry.Stamp stamp = Entry.Stamp.of(OffsetDateTime.now(), arguments[1]);
            int n = JournalFile.append(file, new Fact.Note("note " + i), stamp)
                    .entry()
                    .n();
            System.out.println(n);
        }
    }

    private static void hold(Path file, java.io.PrintStream out) throws IOException, InterruptedException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
            WriteLock.take(file, channel);
            out.println("held");
            Thread.sleep(60_000);
        }
    }

    static Process start(Path file, String name, int notes, Path output) throws IOException {
        return launch(output, file.toString(), name, Integer.toString(notes));
    }

    static Process hold(Path file, Path output) throws IOException {
        return launch(output, file.toString(), "hold");
    }

    /** The output goes to a file, since a pipe is lost with the process. */
    private static Process launch(Path output, String... arguments) throws IOException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                WriterProcess.class.getName()));
        command.addAll(List.of(arguments));
        Files.createFile(output);
        return new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(output.toFile())
                .start();
    }
}
