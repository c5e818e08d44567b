package loomcase.model.read;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.PerPoint;

/** Reads the devices of a circuit file. */
final class DeviceReader {
    private static final List<String> HAZARDS = List.of("moving", "fuel", "coolant", "boosted", "battery");

    private DeviceReader() {}

    static Device device(Cursor c) {
        Device.Nature nature = nature(c);
        Map<String, String> terminals = new LinkedHashMap<>();
        Cursor t = c.object("terminals");
        for (String role : nature.roles()) terminals.put(role, t.id(role));
        t.done();
        List<Device.Condition> conditions = new ArrayList<>();
        for (Cursor each : c.objects("conditions")) {
            conditions.add(new Device.Condition(
                    each.id("id"),
                    each.text("label"),
                    each.word("quantity", Edit.Quantity.class),
                    each.number("value", -1e9, 1e9)));
            each.done();
        }
        List<String> hazards = c.texts("hazards");
        for (String hazard : hazards)
            if (!HAZARDS.contains(hazard)) throw c.problem("hazards", "'" + hazard + "' is not one of " + HAZARDS);
        return new Device(
                c.id("id"),
                c.text("label"),
                nature,
                terminals,
                c.number("tolerancePercent", 0, 100, 3),
                conditions,
                hazards);
    }

    private static Device.Nature nature(Cursor c) {
        String kind = c.text("kind");
        if (Device.Load.WORDS.contains(kind)) return new Device.Load(kind, ohms(c, "ohms"));
        switch (kind) {
            case "ntc":
                return new Device.Ntc(
                        ohms(c, "ohmsAt25"), c.number("beta", 100, 10000), perPoint(c, "celsius", -60, 1000));
            case "ratiometric":
                return ratiometric(c);
            case "motor-with-position":
                return new Device.MotorWithPosition(ohms(c, "motorOhms"), ratiometric(c));
            case "hall":
                return new Device.Hall(ohms(c, "supplyOhms"), ohms(c, "onOhms"), c.number("minimumSupplyVolts", 0, 60));
            case "variable-reluctance":
                return new Device.VariableReluctance(ohms(c, "coilOhms"), perPoint(c, "peakVolts", 0, 200));
            case "node":
                return new Device.Node(ohms(c, "supplyOhms"), c.number("minimumSupplyVolts", 0, 60), terminator(c));
            case "relay":
                return new Device.Relay(ohms(c, "coilOhms"), ohms(c, "contactOhms"), c.number("pullInVolts", 0.1, 60));
            case "battery":
                return new Device.Battery(ohms(c, "ohms"));
            default:
                throw c.problem(
                        "kind",
                        "'" + kind + "' is not one of ntc, ratiometric, motor-with-position, hall, variable-reluctance,"
                                + " node, relay, battery, " + String.join(", ", Device.Load.WORDS));
        }
    }

    private static Device.Ratiometric ratiometric(Cursor c) {
        return new Device.Ratiometric(
                perPoint(c, "fraction", 0, 1),
                ohms(c, "supplyOhms"),
                ohms(c, "outputOhms"),
                c.number("minimumSupplyVolts", 0, 60),
                c.word("unpowered", Device.Unpowered.class));
    }

    static double ohms(Cursor c, String field) {
        return c.number(field, 1e-5, 1e9);
    }

    static double terminator(Cursor c) {
        return c.number("terminatorOhms", 1, 1e9, Double.POSITIVE_INFINITY);
    }

    private static PerPoint perPoint(Cursor c, String field, double least, double most) {
        if (c.maybeObject(field).isEmpty()) return PerPoint.always(c.number(field, least, most));
        Cursor values = c.object(field);
        Map<String, Double> at = new LinkedHashMap<>();
        for (String key : values.all().keySet()) at.put(key, values.number(key, least, most));
        Double usual = at.remove("usual");
        if (usual == null) throw values.problem("usual", "is missing; it is the value where no other is given");
        return new PerPoint(usual, at);
    }
}
