package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.concurrent.Callable;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.JournalFile;
import loomcase.journal.Standing;
import loomcase.json.ShowJson;
import loomcase.model.read.Cursor;
import picocli.CommandLine;

/** Shows a case as a timeline. */
@CommandLine.Command(
        name = "show",
        description = {
            "Show a case as a timeline, corrected lines marked.",
            "Every field is in the case file itself; circuits/case.schema.json describes its lines."
        },
        mixinStandardHelpOptions = true)
final class ShowCommand implements Callable<Integer> {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss xxx", Locale.ROOT);

    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "CASE", description = "case file")
    private Path file;

    @CommandLine.Option(names = "--json", description = "print JSON instead of text")
    private boolean json;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        Journal journal = JournalFile.read(file);
        for (String notice : journal.notices()) spec.commandLine().getErr().println("loomcase: " + notice);
        if (json) ShowJson.of(journal).print(out);
        else text(out, journal);
        return Main.ANSWER;
    }

    private static void text(PrintWriter out, Journal journal) {
        Fact.Opened opened = journal.opened();
        out.println(Cursor.oneLine("complaint: " + opened.complaint()));
        out.println(Cursor.oneLine(
                "circuit:   " + opened.circuit().id() + " (" + opened.circuit().file() + ")"));
        opened.unit().ifPresent(u -> out.println(Cursor.oneLine("unit:      " + u)));
        if (opened.hours().isPresent())
            out.printf(Locale.ROOT, "hours:     %.1f%n", opened.hours().getAsDouble());
        out.println();
        for (Entry e : journal.entries()) line(out, journal, e);
        out.println();
        if (!journal.openAccess().isEmpty())
            out.println("still open: " + Cursor.oneLine(String.join(", ", journal.openAccess())));
        out.println("last digest " + journal.last());
    }

    private static void line(PrintWriter out, Journal journal, Entry e) {
        out.println(Cursor.oneLine(String.format(
                Locale.ROOT,
                "%4d  %s  %s: %s",
                e.n(),
                TIME.format(e.stamp().at()),
                e.stamp().by(),
                e.fact())));
        e.stamp().confirmed().ifPresent(c -> out.println(Cursor.oneLine("      confirmed although " + c)));
        for (Standing s : journal.standing())
            if (s.n() == e.n() && s.correctedBy().isPresent())
                out.println("      no longer holds: corrected by line "
                        + s.correctedBy().getAsInt());
    }
}
