package loomcase.meter;

import java.util.List;
import java.util.stream.Collectors;
import loomcase.j1939.Code;

/** Checks and wording shared by the kinds of test. */
final class Tests {
    private Tests() {}

    static void differ(String a, String b) {
        if (a.isBlank() || b.isBlank() || a.equals(b))
            throw new IllegalArgumentException(
                    "a test needs two different ends; given are '" + a + "' and '" + b + "'");
    }

    static List<Code> watched(List<Code> codes) {
        if (codes.isEmpty()) throw new IllegalArgumentException("a test that watches codes needs one");
        return codes.stream().distinct().sorted().toList();
    }

    static String text(List<Code> codes) {
        return codes.stream().map(c -> c.spn() + "/" + c.fmi()).collect(Collectors.joining(","));
    }

    /** Two points, whichever way round. */
    static String pair(String a, String b) {
        return a.compareTo(b) < 0 ? a + " " + b : b + " " + a;
    }

    static String lead(double ohms) {
        return ohms < 10 ? "fused lead" : Math.round(ohms) + " ohm lead";
    }

    static String point(String point) {
        return point.endsWith("~") ? point.substring(0, point.length() - 1) + " (part side)" : point;
    }
}
