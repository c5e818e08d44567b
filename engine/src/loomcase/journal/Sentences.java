package loomcase.journal;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;

/** The longer sentences about a fact. */
final class Sentences {
    private Sentences() {}

    static String tail(String note) {
        return note.isBlank() ? "" : ", " + note;
    }

    static String list(List<?> items) {
        return items.isEmpty()
                ? "none"
                : String.join(", ", items.stream().map(Object::toString).toList());
    }

    static String codes(Fact.Codes codes) {
        List<String> parts = new ArrayList<>();
        for (Fact.State state : Fact.State.values()) {
            List<Fact.ReadCode> some =
                    codes.codes().stream().filter(c -> c.state() == state).toList();
            if (!some.isEmpty()) parts.add(Words.of(state) + " " + list(some));
        }
        String lamps = codes.lamps().map(l -> "; lamps lit: " + lit(l)).orElse("");
        String from = codes.log().map(l -> ", from " + l.file()).orElse("");
        return "codes " + (parts.isEmpty() ? "none" : String.join(", ", parts)) + lamps + " (looked at "
                + list(codes.operatingPoints()) + from + ")";
    }

    private static String lit(Lamps lamps) {
        List<String> out = new ArrayList<>();
        add(out, "malfunction", lamps.malfunction());
        add(out, "red stop", lamps.redStop());
        add(out, "amber warning", lamps.amberWarning());
        add(out, "protect", lamps.protect());
        return list(out);
    }

    private static void add(List<String> out, String name, Lamp lamp) {
        if (!lamp.lit()) return;
        boolean flashes = lamp.flash() == Lamp.Flash.SLOW || lamp.flash() == Lamp.Flash.FAST;
        out.add(name + (flashes ? " flashing " + lamp.flash().name().toLowerCase(Locale.ROOT) : ""));
    }

    static String reading(Fact.Reading r) {
        String zero = r.meter().leadZeroOhms().isPresent()
                ? ", leads " + Shown.plain(r.meter().leadZeroOhms().getAsDouble()) + " ohm taken off"
                : "";
        return r.test().word() + " " + r.a() + " to " + r.b() + ": " + r.shown() + " (" + r.setup() + zero + ")";
    }
}
