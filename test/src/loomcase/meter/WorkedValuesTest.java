package loomcase.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import loomcase.model.Circuit;
import loomcase.model.ControlUnit;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PerPoint;
import loomcase.solve.NetworkSolver;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Rows of test_values.csv (source in each row) and closed forms, as a meter on a small circuit would show them. */
class WorkedValuesTest {
    private static final Setup ON = Setup.on("on", "rest");

    private static double expected(String id) {
        return Double.parseDouble(Table.row("test_values.csv", "id", id).get("expected"));
    }

    private static double read(MeterPrediction meter, loomcase.meter.Test test, Edit... edits) {
        return meter.predict(test, new Subject("x", List.of(), false, List.of(edits)))
                .mean();
    }

    private static Tiny pair(int terminators) {
        Tiny t = new Tiny().splice("H").splice("L");
        for (int i = 1; i <= terminators; i++)
            t.device("T" + i, new Device.Load("terminator", 120), "a", "b")
                    .wire("WH" + i, "H", "C-T" + i + "/1", "16mm2", 0.1)
                    .wire("WL" + i, "L", "C-T" + i + "/2", "16mm2", 0.1);
        return t;
    }

    @Test
    void terminatorsInParallel() {
        loomcase.meter.Test ohms = new loomcase.meter.Test.Ohms("H", "L", Setup.batteryOff());
        assertEquals(expected("T26"), read(pair(2).meter(), ohms), 0.02);
        assertEquals(expected("T27"), read(pair(3).meter(), ohms), 0.02);
        assertEquals(expected("T28"), read(pair(2).meter(), ohms, new Edit.Series("wire:WH2", 60)), 0.02);
    }

    @ParameterizedTest
    @CsvSource({"10000, 3435, 85, 1451, 2", "10000, 3347, 0, 27936, 28", "10000, 3497, 100, 946.6, 1"})
    void thermistorOnItsOwn(double at25, double beta, double celsius, double ohms, double tolerance) {
        // T29, T30 and T31: IEC 60539 beta equation; the first from memory of a parts list, the others of a maker's
        // table
        MeterPrediction meter = new Tiny()
                .device("N", new Device.Ntc(at25, beta, PerPoint.always(celsius)), "signal", "return")
                .meter();
        assertEquals(
                ohms,
                read(
                        meter,
                        new loomcase.meter.Test.Ohms(
                                "C-N/1~", "C-N/2~", Setup.off().unplug(List.of("C-N")))),
                tolerance);
    }

    @ParameterizedTest
    @CsvSource({"T32, 2205", "T33, 660"})
    void pullUpAgainstAThermistor(String id, double ohms) {
        MeterPrediction meter = divider(1000, ohms).meter();
        assertEquals(expected(id), read(meter, new loomcase.meter.Test.Volts("J/3", "J/4", ON)), 0.001);
    }

    private static Tiny divider(double pullUpOhms, double ohms) {
        return new Tiny()
                .pin("3", new ControlUnit.PullUp(5, pullUpOhms))
                .pin("4", new ControlUnit.Return(0.001))
                .device("N", new Device.Ntc(ohms, 3500, PerPoint.always(25)), "signal", "return")
                .wire("WS", "J/3", "C-N/1", "1.0mm2", 0.5)
                .wire("WR", "J/4", "C-N/2", "1.0mm2", 0.5);
    }

    @Test
    void ratiometricOutputAtHalfItsSpan() {
        // T34: 0.5 to 4.5 V, so half the span is a half of 5 V
        MeterPrediction meter = new Tiny()
                .pin("3", new ControlUnit.PullDown(1e8))
                .pin("4", new ControlUnit.Return(0.001))
                .pin("5", new ControlUnit.Supply("5V"))
                .device(
                        "P",
                        new Device.Ratiometric(PerPoint.always(0.5), 625, 100, 3.5, Device.Unpowered.HIGH_IMPEDANCE),
                        "supply",
                        "return",
                        "signal")
                .wire("WS", "J/3", "C-P/3", "1.0mm2", 0.5)
                .wire("WR", "J/4", "C-P/2", "1.0mm2", 0.5)
                .wire("W5", "J/5", "C-P/1", "1.0mm2", 0.5)
                .meter();
        assertEquals(expected("T34"), read(meter, new loomcase.meter.Test.Volts("C-P/3", "C-P/2", ON)), 0.002);
    }

    @Test
    void dropOfAGoodWireUnderTenAmperes() {
        Circuit circuit = new Tiny()
                .device("L", new Device.Load("heater", 1.15), "a", "b")
                .wire("WL", "C-BAT/1", "C-L/1", "AWG14", 6)
                .wire("WM", "C-L/2", "G", "16mm2", 0.1)
                .circuit();
        double amperes = new NetworkSolver(circuit, new Layout(circuit))
                .at("on", "rest")
                .healthy()
                .amperes("wire:WL")
                .orElseThrow();
        assertEquals(10, amperes, 0.2);
        double drop = read(Tiny.meter(circuit), new loomcase.meter.Test.Drop("C-BAT/1", "C-L/1", ON));
        assertEquals(expected("T35"), drop * 10 / amperes, 0.002);
    }

    @ParameterizedTest
    @ValueSource(strings = {"T08", "T09", "T10", "T11", "T12"})
    void ohmsOfAHundredMetresOfWire(String id) {
        // IEC 60028 resistivity, ASTM B258 diameters; tolerance 0.3 % as in the table
        String gauge = Table.row("test_values.csv", "id", id).get("input").replace("AWG ", "AWG");
        loomcase.meter.Test ohms =
                new loomcase.meter.Test.Ohms("C-L/1", "J/3", Setup.off().unplug(List.of("C-L", "J")));
        MeterPrediction meter = new Tiny()
                .pin("3", new ControlUnit.PullDown(1e5))
                .device("L", new Device.Load("coil", 10), "a", "b")
                .wire("WX", "J/3", "C-L/1", gauge, 100)
                .meter();
        double at20 = read(meter, ohms);
        assertEquals(expected(id) / 10, at20, 0.003 * at20);
        // T22: copper ratio of resistance 90 to 20 degrees, IEC 60028
        loomcase.meter.Test hot = new loomcase.meter.Test.Ohms(
                "C-L/1", "J/3", Setup.off().unplug(List.of("C-L", "J")).wiresAt(90));
        assertEquals(expected("T22"), read(meter, hot) / at20, 0.0005);
    }

    @Test
    void aMeterLoadsAHighDivider() {
        // closed form: 1 Mohm to 5 V over 1 Mohm; 10 Mohm across the lower one
        MeterPrediction meter = divider(1e6, 1e6).meter();
        double lower = 1 / (1 / 1e6 + 1 / 1e7);
        assertEquals(5 * lower / (lower + 1e6), read(meter, new loomcase.meter.Test.Volts("J/3", "J/4", ON)), 0.01);
        Meter heavy = new Meter(1e5, 0.2, true, 0.3, 1000, 1e7);
        double loaded = 1 / (1 / 1e6 + 1 / 1e5);
        assertEquals(
                5 * loaded / (loaded + 1e6),
                read(meter, new loomcase.meter.Test.Volts("J/3", "J/4", ON.with(heavy))),
                0.005);
    }

    @Test
    void leadsThatWereNotZeroedAddTheirOwnOhms() {
        MeterPrediction meter = pair(2).meter();
        Setup off = Setup.batteryOff();
        double zeroed = read(meter, new loomcase.meter.Test.Ohms("H", "L", off));
        double not = read(meter, new loomcase.meter.Test.Ohms("H", "L", off.with(Meter.USUAL.zeroed(false))));
        assertEquals(Meter.USUAL.leadOhms(), not - zeroed, 1e-9);
    }

    @Test
    void aPointThatHangsOnNothingReadsNoVolts() {
        MeterPrediction meter = divider(1000, 2205).meter();
        Setup apart = ON.unplug(List.of("C-N", "J"));
        assertEquals(0, read(meter, new loomcase.meter.Test.Volts("C-N/1", Names.CHASSIS, apart)), 0.001);
    }

    @Test
    void theTestVoltageDoesNotMakeAClampOrADiodeConduct() {
        // 0.3 V is half a diode's 0.6 V, so pull-ups of a dead control unit are all that an ohmmeter sees
        MeterPrediction meter = divider(1000, 2205).meter();
        double r = read(meter, new loomcase.meter.Test.Ohms("J/3", "J/4", Setup.batteryOff()));
        assertEquals(1 / (1 / 1000.0 + 1 / 2205.0), r, 1);
        assertTrue(Meter.USUAL.testVolts() < 0.6);
    }
}
