package loomcase.meter;

import java.util.List;
import java.util.Locale;
import loomcase.j1939.Code;
import loomcase.model.Device;
import loomcase.model.Finding;

/** What a test may give. */
public sealed interface Outcome {
    /** In plain words. */
    String words();

    /** Units of readings. */
    enum Unit {
        VOLTS("V"),
        OHMS("ohm");

        private final String symbol;

        Unit(String symbol) {
            this.symbol = symbol;
        }

        /** The symbol used on screens. */
        public String symbol() {
            return symbol;
        }
    }

    /** A number on the meter. */
    record Reading(double value, Unit unit) implements Outcome {
        public Reading {
            if (!Double.isFinite(value)) throw new IllegalArgumentException("reading " + value + " is no number");
        }

        public String words() {
            if (unit == Unit.OHMS && Math.abs(value) >= 999_500)
                return String.format(Locale.ROOT, "%.3g Mohm", value / 1e6);
            if (unit == Unit.OHMS && Math.abs(value) >= 1000)
                return String.format(Locale.ROOT, "%.3g kohm", value / 1000);
            return String.format(Locale.ROOT, "%.2f %s", Math.abs(value) < 0.005 ? 0 : value, unit.symbol());
        }
    }

    /** The ohmmeter shows over range. */
    record OverRange() implements Outcome {
        public String words() {
            return "over range (OL)";
        }
    }

    /**
     * Which of the codes watched are active after the change.
     *
     * @param active sorted; empty when none is
     */
    record CodesActive(List<Code> active) implements Outcome {
        public CodesActive {
            active = active.stream().distinct().sorted().toList();
        }

        public String words() {
            return active.isEmpty() ? "none of the codes is active" : "active: " + Tests.text(active);
        }
    }

    /** What was noticed. */
    record Noticed(Sign sign) implements Outcome {
        public String words() {
            return sign.words();
        }
    }

    /** What a look found. */
    record Seen(Finding finding) implements Outcome {
        /** Nothing wrong. */
        public static final Seen CLEAN = new Seen(Finding.CLEAN);

        public String words() {
            return equals(CLEAN) ? "nothing to see" : finding.word().replace('-', ' ');
        }
    }

    /**
     * How the engine itself is.
     *
     * @param id the condition's id in the circuit file, empty when all is as it should be
     * @param label the condition in words
     */
    record Condition(String id, String label) implements Outcome {
        /** As it should be. */
        public static final Condition HEALTHY = new Condition("", "as it should be");

        /** A condition that a device reports. */
        public static Condition of(Device.Condition c) {
            return new Condition(c.id(), c.label());
        }

        public String words() {
            return label;
        }
    }

    /** Things noticed without a number. */
    enum Sign {
        RESPONDS("value jumps or code comes and goes"),
        STEADY("nothing changes"),
        FOLLOWS("code follows the part"),
        STAYS("code stays");

        private final String words;

        Sign(String words) {
            this.words = words;
        }

        /** In plain words. */
        public String words() {
            return words;
        }
    }
}
