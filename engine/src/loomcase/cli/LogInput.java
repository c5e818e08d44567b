package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import loomcase.InputProblem;
import loomcase.j1939.ConversionMethod;
import loomcase.j1939.log.CodesRead;
import loomcase.j1939.log.LogReader;
import loomcase.j1939.log.ReadOptions;
import picocli.CommandLine;

/** Options for reading a log. */
final class LogInput {
    @CommandLine.Option(
            names = "--layout",
            paramLabel = "ADDRESS:VERSION,...",
            split = ",",
            hideParamSyntax = true,
            description = "SPN layout (1, 2 or 3) of a sender whose codes use an older layout, such as 0:2")
    private List<String> layouts = List.of();

    /** Whether any of these options was given. */
    boolean given() {
        return !layouts.isEmpty();
    }

    CodesRead read(Path log, PrintWriter err) {
        ReadOptions options = options();
        ProgressLine line = ProgressLine.of("reading log", err);
        CodesRead read =
                LogReader.read(log, (done, total) -> line.share(total > 0 ? (double) done / total : 0), options);
        line.clear();
        return read;
    }

    private ReadOptions options() {
        ReadOptions out = ReadOptions.NONE;
        for (String text : layouts) {
            if (!text.matches("\\d{1,3}:[123]"))
                throw new InputProblem(
                        "--layout '" + text + "' is not ADDRESS:VERSION with version 1, 2 or 3; write it as in 0:2");
            int address = Integer.parseInt(text.substring(0, text.indexOf(':')));
            if (address > 255)
                throw new InputProblem("--layout '" + text + "': address " + address + " is not within 0 to 255");
            out = out.with(address, ConversionMethod.values()[text.charAt(text.length() - 1) - '1']);
        }
        return out;
    }
}
