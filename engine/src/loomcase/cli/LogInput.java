package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import loomcase.InputProblem;
import loomcase.j1939.ConversionMethod;
import loomcase.j1939.log.CodesRead;
import loomcase.j1939.log.LogReader;
import loomcase.j1939.log.Progress;
import loomcase.j1939.log.ReadOptions;
import picocli.CommandLine;

/** Options for reading a log. */
final class LogInput {
    private static final long WORTH_SHOWING = 64L << 20;

    @CommandLine.Option(
            names = "--layout",
            paramLabel = "ADDRESS:VERSION",
            split = ",",
            description = "SPN layout (1, 2 or 3) of a sender whose codes use an older layout, such as 0:2")
    private List<String> layouts = List.of();

    CodesRead read(Path log, PrintWriter err) {
        return LogReader.read(log, progress(err), options());
    }

    private ReadOptions options() {
        ReadOptions out = ReadOptions.NONE;
        for (String text : layouts) {
            if (!text.matches("\\d{1,3}:[123]"))
                throw new InputProblem("--layout '" + text + "' is not ADDRESS:VERSION with version 1, 2 or 3");
            int address = Integer.parseInt(text.substring(0, text.indexOf(':')));
            if (address > 255) throw new InputProblem("--layout '" + text + "': address is not within 0 to 255");
            out = out.with(address, ConversionMethod.values()[text.charAt(text.length() - 1) - '1']);
        }
        return out;
    }

    private static Progress progress(PrintWriter err) {
        return (done, total) -> {
            if (total < WORTH_SHOWING) return;
            err.printf("\r  reading log: %3d %%", 100 * done / total);
            if (done >= total) err.println();
            err.flush();
        };
    }
}
