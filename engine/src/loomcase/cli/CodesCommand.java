package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.j1939.log.CodeSeen;
import loomcase.j1939.log.CodesRead;
import loomcase.j1939.log.SourceCodes;
import loomcase.j1939.log.Warning;
import loomcase.json.CodesJson;
import picocli.CommandLine;

/** Shows the trouble codes in a log, sender by sender. */
@CommandLine.Command(
        name = "codes",
        description = "Show the trouble codes in a CAN log, sender by sender.",
        sortOptions = false,
        footer = {
            "",
            "Examples:",
            "  loomcase codes demo-cases/five-volt-splice-open.log",
            "  loomcase codes --layout 0:2 old-engine.log"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:the codes, none included",
            "2:bad input; one line says what and where",
            "3:a fault in Loomcase itself"
        })
final class CodesCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "LOG", description = "CAN log in a candump text form")
    private Path log;

    @CommandLine.Mixin
    private LogInput input;

    @CommandLine.Option(names = "--json", description = "print JSON instead of text")
    private boolean json;

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        CodesRead read = input.read(log, spec.commandLine().getErr());
        if (json) CodesJson.of(read).print(out);
        else text(read, Page.of(out));
        out.flush();
        return Main.ANSWER;
    }

    private static void text(CodesRead read, Page page) {
        OptionalDouble start = read.firstSeconds();
        for (SourceCodes s : read.sources()) {
            page.line("address " + s.address() + (s.network().isEmpty() ? "" : " on " + s.network()) + "   lamps: "
                    + s.lamps().map(CodesCommand::lamps).orElse("not sent"));
            if (s.codes().isEmpty()) page.line("  no codes");
            for (CodeSeen c : s.codes())
                page.line(String.format(
                        Locale.ROOT,
                        "  %-12s %-7s %-5s %s",
                        c.reading(),
                        CodesJson.lower(c.state()),
                        RankText.count(c.count()),
                        seen(c, start)));
        }
        if (read.sources().isEmpty()) page.line("no trouble messages in this log");
        for (Warning w : read.warnings()) page.line("warning: " + w);
    }

    /** Times count from the first frame: stamps since 1970 say nothing to a reader. */
    private static String seen(CodeSeen c, OptionalDouble start) {
        String times = c.appearances() == 0
                ? "only in the list of stored codes"
                : c.appearances() == 1 ? "came up once" : "came up " + c.appearances() + " times";
        if (c.firstSeenSeconds().isEmpty()) return times;
        double first = c.firstSeenSeconds().getAsDouble();
        double last = c.lastSeenSeconds().orElse(first);
        double zero = start.orElse(0);
        return String.format(Locale.ROOT, "seen %.1f s to %.1f s into the log, %s", first - zero, last - zero, times);
    }

    private static String lamps(Lamps l) {
        return "malfunction " + word(l.malfunction()) + ", red stop " + word(l.redStop()) + ", amber warning "
                + word(l.amberWarning()) + ", protect " + word(l.protect());
    }

    private static String word(Lamp lamp) {
        String state = CodesJson.lower(lamp.state());
        return lamp.lit() && lamp.flash() != Lamp.Flash.NONE
                ? state + " flashing " + CodesJson.lower(lamp.flash())
                : state;
    }
}
