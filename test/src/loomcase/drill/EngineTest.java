package loomcase.drill;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.journal.Shown;
import loomcase.meter.Meter;
import loomcase.meter.Outcome;
import loomcase.meter.Setup;
import loomcase.meter.Test.Numeric;
import loomcase.meter.Test.Ohms;
import loomcase.meter.Test.Volts;
import loomcase.model.ControlUnit;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Ngspice;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.UniformRealDistribution;
import org.apache.commons.math3.stat.inference.KolmogorovSmirnovTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the simulated meter shows, against an independent circuit simulator (ngspice, https://ngspice.sourceforge.io), the
 * voltage divider, and the two-constant thermistor law of IEC 60539-1.
 */
class EngineTest {
    private static final double AIR_OHMS = 1e12;
    private static final List<String> FAULTS = List.of(
            "splice.open S2",
            "splice.open S1",
            "contact.open J1/4",
            "wire.open W11",
            "wire.short-ground W12",
            "device.ntc.short ECT element shorted",
            "device.ratiometric.short MAP supply shorted inside",
            "contact.resistive J1/4 300 ohm");
    private static final List<String> POINTS =
            List.of("J1/3", "J1/6", "J1/7", "J1/8", "C1/1", "C2/1", "C2/2", "C3/3", "C4/1");

    /** In 40 drills each: the condition where it is true, nothing where the sensor makes it up, but for a slip in twenty. */
    @Test
    void aGaugeShowsTheEngineAndNotTheSensor() {
        for (String fault : List.of("condition.engine OPS low-oil", "device.ratiometric.drift OPS like low-oil")) {
            String expected = fault.startsWith("condition") ? "low-oil" : "";
            int right = 0;
            for (int seed = 1; seed <= 40; seed++) {
                Engine engine = new Engine(Shops.TEACHING, Shops.truth(fault, Showing.ALWAYS, seed));
                Outcome.Condition shown = engine.condition(new loomcase.meter.Test.Gauge("OPS"), engine.planted());
                if (shown.id().equals(expected)) right++;
                assertEquals(shown, engine.answer(new loomcase.meter.Test.Gauge("OPS"), engine.planted(), 3));
            }
            assertTrue(right >= 34 && right <= 40, fault + " shown rightly " + right + " times of 40");
        }
    }

    private record Asked(String words, double shown, double sigma, int node) {}

    @Test
    void readingsAgreeWithNgspiceWithinTheMetersNoise(@TempDir Path folder) throws Exception {
        List<Asked> asked = new ArrayList<>();
        List<String> decks = new ArrayList<>();
        List<Integer> nodes = new ArrayList<>();
        NetworkSolver solver = new NetworkSolver(Shops.TEACHING.circuit(), Shops.TEACHING.layout());
        for (String fault : faults()) {
            Engine engine = new Engine(Shops.TEACHING, Shops.truth(fault, Showing.ALWAYS, 5));
            for (String point : POINTS)
                for (String apart : List.of("", "C2")) {
                    Setup setup = Setup.on("key-on", "rest").unplug(apart.isEmpty() ? List.of() : List.of(apart));
                    Numeric test = new Volts(point, Names.CHASSIS, setup);
                    Outcome.Reading shown = (Outcome.Reading) engine.number(test, engine.planted(), decks.size(), true);
                    NetworkSolver.Instant at = solver.at("key-on", "rest");
                    List<Edit> edits = new ArrayList<>(engine.planted().get(0).edits());
                    if (!apart.isEmpty())
                        for (int cavity = 1; cavity <= 3; cavity++)
                            edits.add(new Edit.Series(Names.contact(apart + "/" + cavity), AIR_OHMS));
                    edits.add(new Edit.Bridge(point, Names.CHASSIS, Meter.USUAL.inputOhms()));
                    int node = at.node(point).orElseThrow();
                    asked.add(new Asked(
                            fault + ": " + test.id(), shown.value(), engine.sigma(test, shown.value()), node));
                    decks.add(at.spiceDeck(edits));
                    nodes.add(nodesOf(decks.get(decks.size() - 1)));
                }
        }
        List<Optional<double[]>> spice = Ngspice.run(folder, decks, nodes);
        double squares = 0;
        List<String> far = new ArrayList<>();
        for (int i = 0; i < asked.size(); i++) {
            Asked a = asked.get(i);
            double z = (a.shown - spice.get(i).orElseThrow()[a.node]) / a.sigma;
            squares += z * z;
            if (Math.abs(z) > 4) far.add(a.words + " is " + z + " standard deviations off");
        }
        assertEquals(List.of(), far);
        double rms = Math.sqrt(squares / asked.size());
        assertTrue(rms > 0.8 && rms < 1.2, asked.size() + " readings err by " + rms + " standard deviations");
    }

    private static List<String> faults() {
        var known = new Planter(Shops.TEACHING).faults();
        List<String> out = FAULTS.stream().filter(known::containsKey).toList();
        assertTrue(out.size() >= 7, "of the faults wanted there are " + out);
        return out;
    }

    private static int nodesOf(String deck) {
        return 1 + (int) deck.lines().filter(l -> l.matches("\\* n\\d+ = .*")).count();
    }

    @Test
    void aPoorMeterLoadsThePullUpAsADividerDoes() {
        Engine engine = new Engine(Shops.TEACHING, Shops.truth("wire.open W12", Showing.ALWAYS, 1));
        ControlUnit.PullUp pull = (ControlUnit.PullUp)
                Shops.TEACHING.circuit().controlUnit().pins().get("J1/6").function();
        for (double ohms : List.of(1e3, 5e3, 20e3, 1e6)) {
            Meter usual = Meter.USUAL;
            Meter poor = new Meter(ohms, usual.leadOhms(), true, usual.testVolts(), usual.testOhms(), 1e7);
            Volts test = new Volts(
                    "C1/1",
                    "C1/2",
                    Setup.on("key-on", "rest").unplug(List.of("C1")).with(poor));
            double divided = pull.volts() * ohms / (ohms + pull.ohms());
            assertEquals(divided, engine.exact(test, engine.planted(), 1), 0.002 * divided + 0.002);
        }
    }

    @Test
    void anUnpluggedThermistorReadsItsLawAndTheLeads() {
        Engine engine = new Engine(Shops.TEACHING, Shops.truth("wire.open W12", Showing.ALWAYS, 1));
        Device.Ntc ntc =
                (Device.Ntc) Shops.TEACHING.circuit().devices().get("ECT").nature();
        double kelvin = 20 + 273.15;
        double law = ntc.ohmsAt25() * Math.exp(ntc.beta() * (1 / kelvin - 1 / 298.15));
        Ohms test = new Ohms("C1/1~", "C1/2~", Setup.off().unplug(List.of("C1")));
        assertEquals(law, engine.exact(test, engine.planted(), 1), 0.01 * law);
        double zeroed = ((Outcome.Reading) engine.number(test, engine.planted(), 9, true)).value();
        double not = ((Outcome.Reading) engine.number(test, engine.planted(), 9, false)).value();
        assertEquals(Meter.USUAL.leadOhms(), not - zeroed, 0.02, "the leads add their own resistance");
    }

    @Test
    void theDisplayHasSixThousandCounts() {
        assertEquals("4.982 V", Display.of(volts(4.98151), false).toString());
        assertEquals("12.46 V", Display.of(volts(12.4567), false).toString());
        assertEquals("43.2 mV", Display.of(volts(0.04319), true).toString());
        assertEquals("0.043 V", Display.of(volts(0.04319), false).toString());
        assertEquals(
                "0.4 ohm",
                Display.of(new Outcome.Reading(0.43, Outcome.Unit.OHMS), false).toString());
        assertEquals(
                "2.714 kohm",
                Display.of(new Outcome.Reading(2713.9, Outcome.Unit.OHMS), false)
                        .toString());
        assertEquals(
                "1.500 Mohm",
                Display.of(new Outcome.Reading(1.5e6, Outcome.Unit.OHMS), false).toString());
        assertEquals(new Shown.OverRange(), Display.of(new Outcome.OverRange(), false));
    }

    private static Outcome volts(double value) {
        return new Outcome.Reading(value, Outcome.Unit.VOLTS);
    }

    /** Kolmogorov and Smirnov's test as Commons Math has it. */
    @Test
    void randomNumbersFollowTheirDistributions() {
        double[] even = new double[3000];
        double[] bell = new double[3000];
        for (int i = 0; i < even.length; i++) {
            even[i] = new Dice(7).uniform("n " + i);
            bell[i] = new Dice(7).normal("n " + i);
        }
        KolmogorovSmirnovTest test = new KolmogorovSmirnovTest();
        assertTrue(test.kolmogorovSmirnovTest(new UniformRealDistribution(0, 1), even) > 0.01);
        assertTrue(test.kolmogorovSmirnovTest(new NormalDistribution(0, 1), bell) > 0.01);
    }

    @Test
    void aFaultThatShowsHotSetsItsCodeHotOnly() {
        Engine engine = new Engine(Shops.TEACHING, Shops.truth("wire.open W11", Showing.HOT, 4));
        var first = engine.first(List.of("key-on", "idle-warm"), List.of());
        assertTrue(first.stream().allMatch(c -> c.state() == loomcase.journal.Fact.State.STORED), first.toString());
        Setup none = Setup.on("key-on", "");
        assertEquals(List.of(), engine.active(none, engine.planted(), 4));
        assertEquals(
                "[110/3]",
                engine.active(Setup.on("idle-warm", ""), engine.planted(), 4).toString());
        assertEquals(
                "[110/3]",
                engine.active(none.wiresAt(90), engine.planted(), 4).toString(),
                "hot air on the wires does it too");
    }

    @Test
    void aFaultThatShowsWhenMovedAnswersItsOwnPlaceFarOftenerThanAnother() {
        Engine engine = new Engine(Shops.TEACHING, Shops.truth("contact.open C1/1", Showing.MOVED, 3));
        assertEquals(List.of(), engine.active(Setup.on("idle-warm", ""), engine.planted(), 4));
        int here = 0;
        int there = 0;
        for (int turn = 0; turn < 200; turn++) {
            if (moves(engine, "C1", turn)) here++;
            if (moves(engine, "C3", turn)) there++;
        }
        assertTrue(here > 90 && here < 150, here + " of 200, 60 % expected");
        assertTrue(there > 4 && there < 40, there + " of 200, 10 % expected");
    }

    private static boolean moves(Engine engine, String connector, int turn) {
        var place = new loomcase.model.PlaceId(loomcase.model.PlaceId.Kind.CONNECTOR, connector);
        return engine.responds(
                new loomcase.meter.Test.Wiggle(place, "key-on"),
                engine.planted(),
                loomcase.journal.Fact.Action.WIGGLE,
                turn);
    }

    @Test
    void aFaultAtRandomIsThereForTheStatedShareOfLines() {
        Engine engine = new Engine(Shops.TEACHING, Shops.truth("wire.open W11", Showing.AT_RANDOM, 3));
        int active = 0;
        for (int turn = 0; turn < 300; turn++)
            if (!engine.active(Setup.on("key-on", ""), engine.planted(), turn).isEmpty()) active++;
        assertEquals(0.3, active / 300.0, 0.08);
    }
}
