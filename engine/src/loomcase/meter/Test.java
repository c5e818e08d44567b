package loomcase.meter;

import java.util.List;
import java.util.Optional;
import loomcase.j1939.Code;
import loomcase.model.Names;
import loomcase.model.PlaceId;

/**
 * One thing a technician can do to learn more. Points are named as {@link Names} names them: {@code C-ECT/1} is the
 * harness side of a cavity, {@code C-ECT/1~} what it plugs onto.
 */
public sealed interface Test {
    /** Stable text that names the test within a circuit. */
    String id();

    /** What to do, in plain words. */
    String words();

    /**
     * What is asked of the engine: the same text for tests of which the second tells nothing new, such as a reading with the
     * leads exchanged or the wires warmer, or more codes watched.
     */
    default String question() {
        return id();
    }

    /** A test that a meter answers with a number. */
    sealed interface Numeric extends Test {
        String pointA();

        String pointB();

        Setup setup();

        @Override
        default String question() {
            String kind = id().substring(0, id().indexOf(' '));
            return kind + " " + Tests.pair(pointA(), pointB()) + " "
                    + setup().atUsualWarmth().id();
        }
    }

    /** A test in which codes are watched after a change. */
    sealed interface Watched extends Test {
        /** Codes to watch, sorted, each once. */
        List<Code> codes();

        String operatingPoint();

        /** Connector that is unplugged for it. */
        String connector();

        /** How the engine is prepared for it. */
        default Setup setup() {
            return Setup.on(operatingPoint(), "").unplug(List.of(connector()));
        }
    }

    /** Voltage of point A against point B. */
    record Volts(String pointA, String pointB, Setup setup) implements Numeric {
        public Volts {
            Tests.differ(pointA, pointB);
        }

        public String id() {
            return "volts " + pointA + " " + pointB + " " + setup.id();
        }

        public String words() {
            return "volts from " + Tests.point(pointA) + " to " + Tests.point(pointB) + "; " + setup.words();
        }
    }

    /**
     * Resistance between two points.
     *
     * <p>It means something only with the battery disconnected, or where every point lies on a plug taken apart; anything
     * else is predicted too, but carries {@link Harm#OHMS_ON_LIVE_CIRCUIT}.
     */
    record Ohms(String pointA, String pointB, Setup setup) implements Numeric {
        public Ohms {
            Tests.differ(pointA, pointB);
        }

        public String id() {
            return "ohms " + pointA + " " + pointB + " " + setup.id();
        }

        public String words() {
            return "ohms from " + Tests.point(pointA) + " to " + Tests.point(pointB) + "; " + setup.words();
        }
    }

    /** Voltage lost along a path that carries its load current. */
    record Drop(String pointA, String pointB, Setup setup) implements Numeric {
        public Drop {
            Tests.differ(pointA, pointB);
            if (!(setup.power() instanceof Setup.KeyOn))
                throw new IllegalArgumentException("a drop from " + pointA + " needs current: the key must be on");
        }

        public String id() {
            return "drop " + pointA + " " + pointB + " " + setup.id();
        }

        public String words() {
            return "voltage drop from " + Tests.point(pointA) + " to " + Tests.point(pointB) + " under load; "
                    + setup.words();
        }
    }

    /** Resistance from a point that should be alone to the chassis or to another point. */
    record Isolation(String pointA, String pointB, Setup setup) implements Numeric {
        public Isolation {
            Tests.differ(pointA, pointB);
        }

        public String id() {
            return "isolation " + pointA + " " + pointB + " " + setup.id();
        }

        public String words() {
            return "isolation of " + Tests.point(pointA) + " from " + Tests.point(pointB) + "; " + setup.words();
        }
    }

    /** Unplug a connector and see which of the codes is active then. */
    record UnplugAndWatch(String connector, List<Code> codes, String operatingPoint) implements Watched {
        public UnplugAndWatch {
            codes = Tests.watched(codes);
        }

        public String id() {
            return "unplug " + connector + " watch " + Tests.text(codes) + " @" + operatingPoint;
        }

        @Override
        public String question() {
            return "unplug " + connector + " @" + operatingPoint;
        }

        public String words() {
            return "unplug " + connector + " at " + operatingPoint + " and watch codes " + Tests.text(codes);
        }
    }

    /**
     * Put a lead between two cavities of an unplugged connector and see which of the codes is active then.
     *
     * @param from first cavity, harness side
     * @param to second cavity
     * @param ohms resistance of the lead with any resistor in it
     */
    record JumperAndWatch(
            String connector, String from, String to, double ohms, List<Code> codes, String operatingPoint)
            implements Watched {
        public JumperAndWatch {
            Tests.differ(from, to);
            codes = Tests.watched(codes);
            if (!(ohms > 0)) throw new IllegalArgumentException("jumper ohms is " + ohms + "; allowed is above 0");
        }

        @Override
        public Setup setup() {
            return Watched.super.setup().jump(from, to, ohms);
        }

        public String id() {
            return "jumper " + from + " " + to + " " + Tests.lead(ohms) + " watch " + Tests.text(codes) + " @"
                    + operatingPoint;
        }

        @Override
        public String question() {
            return "jumper " + Tests.pair(from, to) + " " + Tests.lead(ohms) + " @" + operatingPoint;
        }

        public String words() {
            return "unplug " + connector + ", join " + from + " and " + to + " with a " + Tests.lead(ohms) + " at "
                    + operatingPoint + " and watch codes " + Tests.text(codes);
        }
    }

    /** Move, tap or heat one place with the value or code in view. */
    record Wiggle(PlaceId place, String operatingPoint) implements Test {
        public String id() {
            return "wiggle " + place + " @" + operatingPoint;
        }

        public String words() {
            return "move, tap and heat " + place + " at " + operatingPoint + " with value and codes in view";
        }
    }

    /**
     * Look at one place; at a cavity with the fingers too: drag of the test pin, a light tug on the wire.
     *
     * @param rubPoint rub point of a branch, when somebody looked there and it is not known whether elsewhere too
     */
    record Look(PlaceId place, Optional<String> rubPoint) implements Test {
        /** A look at all of a place. */
        public Look(PlaceId place) {
            this(place, Optional.empty());
        }

        public String id() {
            return "look " + place + rubPoint.map(r -> "@" + r).orElse("");
        }

        public String words() {
            return place.kind() == PlaceId.Kind.CAVITY
                    ? "look into " + place
                            + ", key off and plug apart: the right test pin drags as in the cavity beside it, the wire holds"
                            + " a light tug, the terminal sits home, bright and straight"
                    : "look at " + rubPoint.map(r -> "rub point " + r + " on ").orElse("") + place;
        }
    }

    /** See with an instrument of its own, a dipstick or the eye whether the engine is as a sensor reports it. */
    record Gauge(String device) implements Test {
        public String id() {
            return "gauge " + device;
        }

        public String words() {
            return "check by gauge, thermometer, dipstick or eye, without the sensor, what " + device
                    + " reports, with the engine as it was when the code came";
        }
    }

    /** Exchange two alike parts and see whether the code goes with the part. */
    record SwapWithNeighbour(String device, String other) implements Test {
        public SwapWithNeighbour {
            Tests.differ(device, other);
        }

        public String id() {
            return "swap " + device + " " + other;
        }

        public String words() {
            return "swap " + device + " with " + other
                    + " (only if they are the same part) and see where the code goes";
        }
    }
}
