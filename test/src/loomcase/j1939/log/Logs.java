package loomcase.j1939.log;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import loomcase.j1939.Code;
import loomcase.j1939.ConversionMethod;
import loomcase.j1939.Dtc;
import loomcase.j1939.Lamps;
import loomcase.j1939.TroubleMessage;

/** Short ways to write a log and to say what was read from it. */
final class Logs {
    static final String NO_CODE = "18FECA00#00FF00000000FFFF";
    static final String CODE_91 = "18FECA00#40FF5B000301FFFF";

    private Logs() {}

    static CodesRead read(String... lines) {
        return read(String.join("\n", lines) + "\n");
    }

    static CodesRead read(List<String> lines) {
        return read(lines.toArray(String[]::new));
    }

    static CodesRead read(String text) {
        return read(text.getBytes(StandardCharsets.ISO_8859_1), ReadOptions.NONE);
    }

    static CodesRead read(byte[] text, ReadOptions options) {
        return LogReader.read(new ByteArrayInputStream(text), "test.log", text.length, Progress.NONE, options);
    }

    /** Frames without time stamps, separated by blanks, to lines. */
    static List<String> untimed(String frames) {
        List<String> lines = new ArrayList<>();
        for (String frame : frames.split(" ")) {
            lines.add("can0 " + frame);
        }
        return lines;
    }

    static String at(double seconds, String frame) {
        return String.format(Locale.ROOT, "(%.6f) can0 %s", seconds, frame);
    }

    /** "91/3x1 ACTIVE, ..." of the only source. */
    static String codes(CodesRead read) {
        return codes(read.sources().get(0));
    }

    static String codes(SourceCodes source) {
        return String.join(
                ", ",
                source.codes().stream()
                        .map(seen -> seen.reading()
                                + (seen.count().isPresent() ? "x" + seen.count().getAsInt() : "")
                                + " "
                                + seen.state())
                        .toList());
    }

    static long warned(CodesRead read, Warning.Kind kind) {
        return read.warning(kind).map(Warning::count).orElse(0L);
    }

    static Dtc dtc(int spn, int fmi, int count) {
        return Dtc.of(new Code(spn, fmi), OptionalInt.of(count), ConversionMethod.VERSION_4);
    }

    static TroubleMessage message(Dtc... codes) {
        return new TroubleMessage(Lamps.OFF, List.of(codes));
    }
}
