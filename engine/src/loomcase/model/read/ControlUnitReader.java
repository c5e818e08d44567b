package loomcase.model.read;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import loomcase.model.ControlUnit;

/** Reads the control unit of a circuit file. */
final class ControlUnitReader {
    private ControlUnitReader() {}

    static ControlUnit controlUnit(Cursor c) {
        Map<String, ControlUnit.Rail> rails =
                CircuitReader.keyed(c.objects("rails"), ControlUnitReader::rail, ControlUnit.Rail::id);
        Map<String, ControlUnit.Pin> pins = new LinkedHashMap<>();
        for (Cursor p : c.some("pins")) {
            ControlUnit.Pin pin = new ControlUnit.Pin(p.id("cavity"), p.text("label", ""), function(p), clamp(p));
            p.done();
            if (pins.put(pin.cavity(), pin) != null)
                throw p.problem("cavity", "'" + pin.cavity() + "' is used twice in pins");
        }
        ControlUnit unit = new ControlUnit(
                c.name("id"),
                c.text("label"),
                c.whole("address", 0, 253),
                c.someTexts("connectors"),
                rails,
                pins,
                c.number("minimumSupplyVolts", 0, 60));
        c.done();
        return unit;
    }

    private static ControlUnit.Rail rail(Cursor r) {
        return new ControlUnit.Rail(
                r.name("id"),
                r.number("volts", 0.1, 60),
                r.number("ohms", 1e-4, 1000),
                r.number("limitAmperes", 1e-3, 100));
    }

    private static Optional<ControlUnit.Clamp> clamp(Cursor p) {
        if (!p.has("clamp")) return Optional.empty();
        Cursor c = p.object("clamp");
        ControlUnit.Clamp clamp = new ControlUnit.Clamp(c.number("highVolts", 0, 200), DeviceReader.ohms(c, "ohms"));
        c.done();
        return Optional.of(clamp);
    }

    private static ControlUnit.PinFunction function(Cursor p) {
        String word = p.text("function");
        switch (word) {
            case "power":
                return new ControlUnit.Power(DeviceReader.ohms(p, "loadOhms"));
            case "ground":
                return new ControlUnit.GroundPin();
            case "supply":
                return new ControlUnit.Supply(p.name("rail"));
            case "return":
                return new ControlUnit.Return(p.number("ohms", 1e-5, 1e6, 0.05));
            case "pull-up-input":
                return new ControlUnit.PullUp(p.number("volts", 0, 60), DeviceReader.ohms(p, "ohms"));
            case "pull-down-input":
                return new ControlUnit.PullDown(DeviceReader.ohms(p, "ohms"));
            case "differential-input":
                return new ControlUnit.Differential(p.number("biasVolts", 0, 60), DeviceReader.ohms(p, "ohms"));
            case "low-side-driver":
                return new ControlUnit.LowSide(
                        DeviceReader.ohms(p, "onOhms"),
                        p.number("limitAmperes", 1e-3, 1000),
                        p.number("diagnosticVolts", 0, 60),
                        DeviceReader.ohms(p, "diagnosticOhms"));
            case "high-side-driver":
                return new ControlUnit.HighSide(
                        DeviceReader.ohms(p, "onOhms"),
                        p.number("limitAmperes", 1e-3, 1000),
                        p.number("diagnosticVolts", 0, 60),
                        DeviceReader.ohms(p, "diagnosticOhms"));
            case "can-high":
            case "can-low":
                return new ControlUnit.Network(p.name("bus"), word.equals("can-high"), DeviceReader.terminator(p));
            default:
                throw p.problem(
                        "function",
                        "'" + word + "' is not one of power, ground, supply, return, pull-up-input, pull-down-input,"
                                + " differential-input, low-side-driver, high-side-driver, can-high, can-low");
        }
    }
}
