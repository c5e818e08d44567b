package loomcase.faults;

import java.util.ArrayList;
import java.util.List;
import loomcase.faults.FaultGenerator.Context;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/** A wire by itself: open, resistive, leaking or shorted to ground. */
final class WireFaults {
    /** Copper area in square millimetres from which a wire carries load current, so that a fraction of an ohm matters. */
    static final double LOAD_AREA = 1.3;

    private static final List<Double> SIGNAL_OHMS = List.of(30.0, 1000.0);
    private static final List<Double> LOAD_OHMS = List.of(0.3, 3.0);

    /** Copper area from which a wire feeds many loads at once, so that a tenth of an ohm matters. */
    private static final double FEED_AREA = 4;

    /** Of a feed and of a ground that takes what a feed brings. */
    static final List<Double> FEED_OHMS = List.of(0.1, 0.3, 3.0);

    private static final List<Double> LEAK_OHMS = List.of(1000.0, 20_000.0);

    private final Context c;

    WireFaults(Context context) {
        this.c = context;
    }

    /** Extra resistances worth telling apart in this wire. */
    static List<Double> resistances(Wire w) {
        double area = w.size().areaSquareMillimetres();
        return area >= FEED_AREA ? FEED_OHMS : area >= LOAD_AREA ? LOAD_OHMS : SIGNAL_OHMS;
    }

    List<Hypothesis> generate() {
        List<Hypothesis> out = new ArrayList<>();
        for (Wire w : c.circuit().wires().values()) {
            PlaceId place = FaultGenerator.place(PlaceId.Kind.WIRE, w.id());
            double metres = c.exposure().weighedMetres(w);
            String name = name(w);
            out.add(c.fixed(
                    "wire.open",
                    place,
                    "",
                    name + " open",
                    metres,
                    new Edit.Series(Names.wire(w.id()), Edit.OPEN_OHMS)));
            for (double ohms : resistances(w))
                out.add(c.fixed(
                        "wire.resistive",
                        place,
                        FaultGenerator.ohms(ohms),
                        name + " has " + FaultGenerator.ohms(ohms) + " in series",
                        metres / resistances(w).size(),
                        new Edit.Series(Names.wire(w.id()), ohms)));
            if (c.nets().kind(c.nets().of(w)) == Nets.Kind.GROUND) continue;
            for (double ohms : LEAK_OHMS)
                out.add(c.fixed(
                        "wire.leak-ground",
                        place,
                        FaultGenerator.ohms(ohms),
                        name + " leaks to ground through " + FaultGenerator.ohms(ohms),
                        metres / LEAK_OHMS.size(),
                        new Edit.Bridge(point(w), Names.CHASSIS, ohms)));
            out.add(c.fixed(
                    "wire.short-ground",
                    place,
                    "",
                    name + " shorted to ground",
                    metres,
                    new Edit.Bridge(point(w), Names.CHASSIS, Edit.SHORT_OHMS)));
        }
        return out;
    }

    static String name(Wire w) {
        return "wire " + w.id() + " (" + w.circuit() + ", " + w.from() + " to " + w.to() + ")";
    }

    /** A point of the wire; its two ends differ by milliohms. */
    static String point(Wire w) {
        return w.from();
    }
}
