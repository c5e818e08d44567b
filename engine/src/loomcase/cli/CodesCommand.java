package loomcase.cli;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import loomcase.intake.Intake;
import loomcase.j1939.CodeReading;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.j1939.log.CodeSeen;
import loomcase.j1939.log.CodesRead;
import loomcase.j1939.log.SourceCodes;
import loomcase.j1939.log.Warning;
import picocli.CommandLine;

/** Shows the trouble codes in a log, sender by sender. */
@CommandLine.Command(
        name = "codes",
        description = "Show the trouble codes in a CAN log, sender by sender.",
        mixinStandardHelpOptions = true)
final class CodesCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "LOG", description = "CAN log in a candump text form")
    private Path log;

    @CommandLine.Mixin
    private LogInput input;

    @CommandLine.Option(names = "--json", description = "print JSON instead of text")
    private boolean json;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        CodesRead read = input.read(log, spec.commandLine().getErr());
        if (json) json(read, out);
        else text(read, out);
        out.flush();
        return Main.ANSWER;
    }

    private static void text(CodesRead read, PrintWriter out) {
        for (SourceCodes s : read.sources()) {
            out.println("address " + s.address() + (s.network().isEmpty() ? "" : " on " + s.network()) + "   lamps: "
                    + s.lamps().map(CodesCommand::lamps).orElse("not sent"));
            if (s.codes().isEmpty()) out.println("  no codes");
            for (CodeSeen c : s.codes())
                out.printf(
                        Locale.ROOT,
                        "  %-12s %-7s %-5s %s%n",
                        c.reading(),
                        c.state().name().toLowerCase(Locale.ROOT),
                        Intake.count(c.count()),
                        seen(c));
        }
        if (read.sources().isEmpty()) out.println("no trouble messages in this log");
        for (Warning w : read.warnings()) out.println("warning: " + w);
    }

    private static String seen(CodeSeen c) {
        if (c.firstSeenSeconds().isEmpty()) return "";
        return String.format(
                Locale.ROOT,
                "first %.3f s, last %.3f s, came up %d times",
                c.firstSeenSeconds().getAsDouble(),
                c.lastSeenSeconds().orElse(c.firstSeenSeconds().getAsDouble()),
                c.appearances());
    }

    private static String lamps(Lamps l) {
        return "malfunction " + word(l.malfunction()) + ", red stop " + word(l.redStop()) + ", amber warning "
                + word(l.amberWarning()) + ", protect " + word(l.protect());
    }

    private static String word(Lamp lamp) {
        String state = lower(lamp.state());
        return lamp.lit() && lamp.flash() != Lamp.Flash.NONE ? state + " flashing " + lower(lamp.flash()) : state;
    }

    private static String lower(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    private static void json(CodesRead read, PrintWriter out) {
        JsonFactory factory = JsonFactory.builder()
                .disable(StreamWriteFeature.AUTO_CLOSE_TARGET)
                .build();
        try (JsonGenerator g = factory.createGenerator(out).useDefaultPrettyPrinter()) {
            g.writeStartObject();
            g.writeArrayFieldStart("sources");
            for (SourceCodes s : read.sources()) source(g, s);
            g.writeEndArray();
            g.writeArrayFieldStart("warnings");
            for (Warning w : read.warnings()) {
                g.writeStartObject();
                g.writeStringField("kind", lower(w.kind()));
                g.writeNumberField("count", w.count());
                if (w.firstLine().isPresent())
                    g.writeNumberField("firstLine", w.firstLine().getAsLong());
                else g.writeNullField("firstLine");
                g.writeStringField("example", w.example());
                g.writeEndObject();
            }
            g.writeEndArray();
            g.writeNumberField("frames", read.frames().total());
            g.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        out.println();
    }

    private static void source(JsonGenerator g, SourceCodes s) throws IOException {
        g.writeStartObject();
        g.writeStringField("network", s.network());
        g.writeNumberField("address", s.address());
        if (s.lamps().isEmpty()) g.writeNullField("lamps");
        else {
            g.writeObjectFieldStart("lamps");
            lamp(g, "malfunction", s.lamps().get().malfunction());
            lamp(g, "redStop", s.lamps().get().redStop());
            lamp(g, "amberWarning", s.lamps().get().amberWarning());
            lamp(g, "protect", s.lamps().get().protect());
            g.writeEndObject();
        }
        g.writeArrayFieldStart("codes");
        for (CodeSeen c : s.codes()) code(g, c);
        g.writeEndArray();
        g.writeEndObject();
    }

    private static void lamp(JsonGenerator g, String field, Lamp lamp) throws IOException {
        g.writeObjectFieldStart(field);
        g.writeStringField("state", lower(lamp.state()));
        g.writeStringField("flash", lower(lamp.flash()));
        g.writeEndObject();
    }

    private static void code(JsonGenerator g, CodeSeen c) throws IOException {
        g.writeStartObject();
        g.writeNumberField("spn", c.reading().codes().get(0).spn());
        g.writeNumberField("fmi", c.reading().codes().get(0).fmi());
        if (c.reading() instanceof CodeReading.Ambiguous a) {
            g.writeArrayFieldStart("candidates");
            for (var each : a.codes()) g.writeString(each.toString());
            g.writeEndArray();
        }
        RankJson.count(g, c.count());
        g.writeStringField("state", lower(c.state()));
        g.writeNumberField("appearances", c.appearances());
        seconds(g, "firstSeenSeconds", c.firstSeenSeconds());
        seconds(g, "lastSeenSeconds", c.lastSeenSeconds());
        g.writeEndObject();
    }

    private static void seconds(JsonGenerator g, String field, OptionalDouble value) throws IOException {
        if (value.isPresent()) g.writeNumberField(field, value.getAsDouble());
        else g.writeNullField(field);
    }
}
