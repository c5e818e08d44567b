package loomcase.faults;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import loomcase.faults.FaultGenerator.Context;
import loomcase.model.Connector;
import loomcase.model.Edit;
import loomcase.model.Joints;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/** Contacts, crimps, splices, fuses and ground studs: open, resistive, bridged. */
final class JointFaults {
    private static final List<Double> WET_OHMS = List.of(200.0, 5_000.0);

    private final Context c;
    private final Map<String, List<Wire>> wiresAt = new HashMap<>();

    JointFaults(Context context) {
        this.c = context;
        for (Wire w : c.circuit().wires().values()) {
            wiresAt.computeIfAbsent(w.from(), k -> new ArrayList<>(2)).add(w);
            wiresAt.computeIfAbsent(w.to(), k -> new ArrayList<>(2)).add(w);
        }
    }

    List<Hypothesis> generate() {
        List<Hypothesis> out = new ArrayList<>();
        for (Connector connector : connectors(c)) {
            for (String cavity : usedCavities(c, connector)) contact(out, connector, cavity);
            for (String[] pair : adjacent(c, connector)) bridge(out, connector, pair);
        }
        for (Joints.Splice s : c.circuit().splices().values()) splice(out, s);
        for (Joints.Fuse f : c.circuit().fuses().values())
            out.add(c.fixed(
                    "fuse.open",
                    FaultGenerator.place(PlaceId.Kind.FUSE, f.id()),
                    "",
                    "fuse " + f.id() + " (" + f.label() + ") open",
                    1,
                    new Edit.Series(Names.fuse(f.id()), Edit.OPEN_OHMS)));
        for (Joints.Ground g : c.circuit().grounds().values()) ground(out, g);
        return out;
    }

    /** Connectors, each inline pair once by its first half. */
    static List<Connector> connectors(Context c) {
        return c.circuit().connectors().values().stream()
                .filter(x -> !c.circuit().connectors().containsKey(x.mates()) || x.id().compareTo(x.mates()) < 0)
                .toList();
    }

    /** Cavities of a connector that carry a wire. */
    static List<String> usedCavities(Context c, Connector connector) {
        return connector.rows().stream()
                .flatMap(List::stream)
                .map(x -> connector.id() + "/" + x)
                .filter(c.used()::contains)
                .toList();
    }

    /** Used cavities next to each other, within a row or between rows. */
    static List<String[]> adjacent(Context c, Connector connector) {
        List<String[]> out = new ArrayList<>();
        List<List<String>> rows = connector.rows();
        for (int r = 0; r < rows.size(); r++)
            for (int i = 0; i < rows.get(r).size(); i++) {
                if (i + 1 < rows.get(r).size())
                    pair(c, connector, rows.get(r).get(i), rows.get(r).get(i + 1), out);
                if (r + 1 < rows.size() && i < rows.get(r + 1).size())
                    pair(c, connector, rows.get(r).get(i), rows.get(r + 1).get(i), out);
            }
        return out;
    }

    private static void pair(Context c, Connector connector, String a, String b, List<String[]> out) {
        String x = connector.id() + "/" + a;
        String y = connector.id() + "/" + b;
        if (c.used().contains(x)
                && c.used().contains(y)
                && !c.nets().of(x).equals(c.nets().of(y))) out.add(new String[] {x, y});
    }

    private void contact(List<Hypothesis> out, Connector connector, String cavity) {
        PlaceId place = FaultGenerator.place(PlaceId.Kind.CAVITY, cavity);
        double factor = c.exposure().factor(connector.zone());
        Edit open = new Edit.Series(Names.contact(cavity), Edit.OPEN_OHMS);
        String where = "cavity " + cavity + " of the " + connector.label();
        out.add(c.fixed("contact.open", place, "", "contact open in " + where, factor, open));
        out.add(c.fixed("contact.backed-out", place, "", "terminal backed out of " + where, factor, open));
        out.add(c.fixed(
                "contact.fretted",
                List.of(place),
                "",
                "worn contact that comes and goes in " + where,
                factor,
                true,
                List.of(open)));
        out.add(c.fixed("crimp.open", place, "", "crimp open at " + where, factor, open));
        List<Wire> wires = wiresAt.getOrDefault(cavity, List.of());
        List<Double> sizes = wires.isEmpty() ? List.of(30.0) : WireFaults.resistances(wires.get(wires.size() - 1));
        for (double ohms : sizes) {
            Edit series = new Edit.Series(Names.contact(cavity), ohms);
            String size = FaultGenerator.ohms(ohms);
            out.add(c.fixed(
                    "contact.resistive",
                    place,
                    size,
                    "contact of " + size + " in " + where,
                    factor / sizes.size(),
                    series));
            out.add(c.fixed(
                    "crimp.resistive",
                    place,
                    size,
                    "crimp of " + size + " at " + where,
                    factor / sizes.size(),
                    series));
        }
    }

    private void bridge(List<Hypothesis> out, Connector connector, String[] pair) {
        List<PlaceId> places = List.of(
                FaultGenerator.place(PlaceId.Kind.CAVITY, pair[0]), FaultGenerator.place(PlaceId.Kind.CAVITY, pair[1]));
        double factor = c.exposure().factor(connector.zone()) / WET_OHMS.size();
        for (double ohms : WET_OHMS)
            out.add(c.fixed(
                    "contact.bridge",
                    places,
                    Names.cavityOf(pair[1]) + " " + FaultGenerator.ohms(ohms),
                    "water or corrosion of " + FaultGenerator.ohms(ohms) + " between cavities " + pair[0] + " and "
                            + Names.cavityOf(pair[1]) + " of the " + connector.label(),
                    factor,
                    false,
                    List.of(new Edit.Bridge(pair[0], pair[1], ohms))));
    }

    private void splice(List<Hypothesis> out, Joints.Splice s) {
        PlaceId place = FaultGenerator.place(PlaceId.Kind.SPLICE, s.id());
        double factor =
                c.exposure().factor(c.circuit().branches().get(s.branch()).zone());
        List<Edit> all = new ArrayList<>();
        String name = "splice " + s.id() + " (" + s.label() + ")";
        for (Wire w : wiresAt.getOrDefault(s.id(), List.of())) {
            String leg = Names.leg(s.id(), w.id());
            all.add(new Edit.Series(leg, Edit.OPEN_OHMS));
            List<PlaceId> places = List.of(place, FaultGenerator.place(PlaceId.Kind.WIRE, w.id()));
            String where = name + ", leg of wire " + w.id() + " (" + w.circuit() + ")";
            out.add(c.fixed(
                    "splice.leg-open",
                    places,
                    w.id(),
                    where + ", open",
                    factor,
                    false,
                    List.of(new Edit.Series(leg, Edit.OPEN_OHMS))));
            for (double ohms : WireFaults.resistances(w))
                out.add(c.fixed(
                        "splice.leg-resistive",
                        places,
                        w.id() + " " + FaultGenerator.ohms(ohms),
                        where + ", has " + FaultGenerator.ohms(ohms),
                        factor / WireFaults.resistances(w).size(),
                        false,
                        List.of(new Edit.Series(leg, ohms))));
        }
        out.add(c.fixed("splice.open", List.of(place), "", name + " open", factor, false, all));
    }

    private void ground(List<Hypothesis> out, Joints.Ground g) {
        PlaceId place = FaultGenerator.place(PlaceId.Kind.GROUND, g.id());
        String name = "ground " + g.id() + " (" + g.label() + ")";
        out.add(c.fixed(
                "ground.open", place, "", name + " open", 1, new Edit.Series(Names.ground(g.id()), Edit.OPEN_OHMS)));
        for (double ohms : WireFaults.FEED_OHMS)
            out.add(c.fixed(
                    "ground.resistive",
                    place,
                    FaultGenerator.ohms(ohms),
                    name + " has " + FaultGenerator.ohms(ohms),
                    1.0 / WireFaults.FEED_OHMS.size(),
                    new Edit.Series(Names.ground(g.id()), ohms)));
    }
}
