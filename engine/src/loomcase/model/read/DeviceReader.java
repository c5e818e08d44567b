package loomcase.model.read;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.PerPoint;

/** Reads the devices of a circuit file. */
final class DeviceReader {
    /** Key of the value at every operating point without one of its own. */
    static final String USUAL = "usual";

    private static final List<String> HAZARDS = List.of("moving", "fuel", "coolant", "boosted", "battery");

    private DeviceReader() {}

    static Device device(Cursor c) {
        Device.Nature nature = nature(c);
        Map<String, String> terminals = new LinkedHashMap<>();
        Cursor t = c.object("terminals");
        for (String role : nature.roles()) terminals.put(role, t.id(role));
        t.done();
        Map<String, Device.Condition> conditions =
                CircuitReader.keyed(c.objects("conditions"), each -> condition(each, nature), Device.Condition::id);
        List<String> hazards = c.texts("hazards");
        for (String hazard : hazards)
            if (!HAZARDS.contains(hazard))
                throw c.problem("hazards", "'" + hazard + "' is not one of " + String.join(", ", HAZARDS));
        return new Device(
                c.name("id"),
                c.text("label"),
                nature,
                terminals,
                c.number("tolerancePercent", 0, 100, 3),
                List.copyOf(conditions.values()),
                hazards);
    }

    private static Device.Condition condition(Cursor c, Device.Nature nature) {
        Edit.Quantity quantity = c.word("quantity", Edit.Quantity.class);
        if (!quantities(nature).contains(quantity))
            throw c.problem("quantity", "a device of kind " + nature.word() + " has no such quantity");
        double value =
                switch (quantity) {
                    case CELSIUS -> c.number("value", -60, 1000);
                    case FRACTION -> c.number("value", 0, 1);
                    case OHMS -> ohms(c, "value");
                    case OHMS_FACTOR -> c.number("value", 1e-6, 1e6);
                    case VOLTS, RESTING_VOLTS -> c.number("value", 0, 60);
                };
        return new Device.Condition(c.name("id"), c.text("label"), quantity, value);
    }

    /** What a true engine condition can change in a device. */
    private static Set<Edit.Quantity> quantities(Device.Nature nature) {
        if (nature instanceof Device.Ntc)
            return Set.of(Edit.Quantity.CELSIUS, Edit.Quantity.OHMS, Edit.Quantity.OHMS_FACTOR);
        if (nature instanceof Device.Ratiometric) return Set.of(Edit.Quantity.FRACTION);
        if (nature instanceof Device.MotorWithPosition)
            return Set.of(Edit.Quantity.FRACTION, Edit.Quantity.OHMS, Edit.Quantity.OHMS_FACTOR);
        if (nature instanceof Device.Battery) return Set.of(Edit.Quantity.VOLTS, Edit.Quantity.RESTING_VOLTS);
        return Set.of(Edit.Quantity.OHMS, Edit.Quantity.OHMS_FACTOR);
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
        Double usual = at.remove(USUAL);
        if (usual == null) throw values.problem(USUAL, "is missing; it is the value where no other is given");
        return new PerPoint(usual, at);
    }
}
