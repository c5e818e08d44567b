package loomcase.model.read;

import java.util.ArrayList;
import java.util.List;
import loomcase.model.Watch;

/** Reads the watches of a circuit file. */
final class WatchReader {
    private WatchReader() {}

    static Watch watch(Cursor c) {
        Watch.Measure measure = measure(c);
        boolean amperes = measure instanceof Watch.PinAmperes;
        String kind = c.text("circuitKind");
        if (!Watch.CIRCUIT_KINDS.contains(kind))
            throw c.problem("circuitKind", "'" + kind + "' is not one of " + String.join(", ", Watch.CIRCUIT_KINDS));
        return new Watch(
                c.whole("spn", 0, 524287),
                c.whole("fmi", 0, 31),
                c.text("label"),
                kind,
                c.text("device", ""),
                c.text("rail", ""),
                measure,
                limit(c, amperes ? "Amperes" : "Volts"),
                c.someTexts("at"),
                c.number("debounceSeconds", 0, 3600, 1));
    }

    private static Watch.Measure measure(Cursor c) {
        Cursor m = c.object("measure");
        Watch.Measure measure;
        if (m.has("volts")) measure = new Watch.PinVolts(m.id("volts"), m.id("phase"));
        else if (m.has("difference")) measure = new Watch.Difference(m.id("difference"), m.id("minus"), m.id("phase"));
        else if (m.has("swing"))
            measure = new Watch.Swing(m.id("swing"), m.text("minus", ""), m.id("from"), m.id("phase"));
        else if (m.has("amperes")) measure = new Watch.PinAmperes(m.id("amperes"), m.id("phase"));
        else if (m.has("departure")) measure = new Watch.Departure(m.id("departure"), m.id("phase"));
        else throw c.problem("measure", "needs one of volts, difference, swing, amperes, departure");
        m.done();
        return measure;
    }

    private static Watch.Limit limit(Cursor c, String unit) {
        List<String> given = new ArrayList<>();
        for (String side : List.of("above", "below")) if (c.has(side + unit)) given.add(side);
        if (given.size() != 1)
            throw c.problem("above" + unit, "give exactly one of above" + unit + " and below" + unit);
        String side = given.get(0);
        return new Watch.Limit(
                side.equals("above"), c.number(side + unit, -1000, 1000), c.number("spread" + unit, 1e-6, 100));
    }
}
