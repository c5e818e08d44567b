package loomcase.drill;

import java.util.List;
import java.util.Optional;
import loomcase.journal.Fact;
import loomcase.journal.Meter;
import loomcase.journal.Setup;
import loomcase.journal.Spot;

/** What a student asks for: a line of a case without its outcome, or something only a drill knows. */
public sealed interface Request {
    /** Name of the instrument that stands for a probe pushed into a terminal as it is. */
    String BARE_PROBE = "bare probe";

    /** What the leads of the drill's meter read held together. */
    double LEAD_OHMS = loomcase.meter.Meter.USUAL.leadOhms();

    /** A meter reading. */
    record Measure(Fact.Test test, String a, String b, Setup setup, Meter meter) implements Request {}

    /** Unplug or bridge and watch the codes. */
    record Watch(Fact.Method method, Setup setup) implements Request {}

    /** Wiggle, heat or spray a place. */
    record Move(Fact.Action action, Spot spot, Setup setup) implements Request {}

    /** Look at a place. */
    record Look(Spot spot) implements Request {}

    /** Swap a part with its like. */
    record Swap(Spot part, Spot with) implements Request {}

    /** See with an instrument of its own whether the engine is as a sensor reports it. */
    record Gauge(Spot part) implements Request {}

    /** Open or close an access step. */
    record Way(String step, boolean open) implements Request {}

    /** Run the engine at operating points and read the codes. */
    record Read(List<String> points) implements Request {
        public Read {
            points = List.copyOf(points);
        }
    }

    /** Work at a place, or clear codes. */
    record Work(Fact.Deed deed, Optional<Spot> spot) implements Request {}

    /** A hint. */
    record Hint() implements Request {}

    /**
     * This is where it is, and it is mended. The run ends.
     *
     * @param places places named; {@link #ENGINE} for a true engine condition
     */
    record Claim(List<String> places) implements Request {
        public Claim {
            places = List.copyOf(places);
        }
    }

    /** The word for a true engine condition in a claim. */
    String ENGINE = "engine";

    /** The student gives up. The run ends. */
    record GiveUp() implements Request {}

    /** Free words; they cost nothing. */
    record Note(String text) implements Request {}

    /** True when a reading was taken with a bare probe. */
    static boolean isBare(Meter meter) {
        return meter.name().equals(BARE_PROBE);
    }
}
