package loomcase.cli;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Set;
import java.util.concurrent.Callable;
import loomcase.model.Wire;
import loomcase.model.read.WireList;
import picocli.CommandLine;

/** Turns a wire list into the part of a circuit file that it can fill. */
@CommandLine.Command(
        name = "wires",
        description = {
            "Turn a wire list (CSV) into the \"wires\" of a circuit file, to paste into it, with the connectors and"
                    + " branches that it names.",
            "The first line names the columns: " + WireList.COLUMNS + "."
        },
        footer = {"", "Example:", "  loomcase wires list.csv"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:the wires", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class WiresCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Parameters(paramLabel = "LIST", description = "wire list, comma-separated, UTF-8")
    private Path file;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        WireList list = WireList.read(file);
        out.println("{\n  \"wires\": [");
        lines(out, list.wires().stream().map(WiresCommand::wire).toList());
        out.println("  ],\n  \"connectorsNamed\": [");
        lines(
                out,
                list.connectors().entrySet().stream()
                        .map(e -> connector(e.getKey(), e.getValue()))
                        .toList());
        out.println("  ],\n  \"branchesNamed\": [");
        lines(
                out,
                list.branches().stream().map(b -> json(g -> g.writeString(b))).toList());
        out.println("  ]\n}");
        return Main.ANSWER;
    }

    private static void lines(PrintWriter out, java.util.List<String> items) {
        for (int i = 0; i < items.size(); i++) out.println("    " + items.get(i) + (i < items.size() - 1 ? "," : ""));
    }

    private static String wire(Wire w) {
        return json(g -> {
            g.writeStartObject();
            g.writeStringField("id", w.id());
            g.writeStringField("circuit", w.circuit());
            g.writeStringField("from", w.from());
            g.writeStringField("to", w.to());
            g.writeStringField("size", w.size().name());
            if (!w.colour().isEmpty()) g.writeStringField("colour", w.colour());
            if (!w.insulation().isEmpty()) g.writeStringField("insulation", w.insulation());
            if (w.givenMetres().isPresent())
                g.writeNumberField("metres", w.givenMetres().getAsDouble());
            g.writeEndObject();
        });
    }

    private static String connector(String id, Set<String> cavities) {
        return json(g -> {
            g.writeStartObject();
            g.writeStringField("id", id);
            g.writeArrayFieldStart("rows");
            g.writeString(String.join(" ", cavities));
            g.writeEndArray();
            g.writeEndObject();
        });
    }

    private interface Writing {
        void to(JsonGenerator g) throws IOException;
    }

    /** One value on one line. */
    private static String json(Writing writing) {
        StringWriter text = new StringWriter();
        try (JsonGenerator g = new JsonFactory().createGenerator(text)) {
            writing.to(g);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }
}
