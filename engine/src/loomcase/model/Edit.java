package loomcase.model;

/**
 * An electrical change to a circuit: what a fault, an unplugged connector or a jumper does to the network.
 *
 * <p>Elements and points are named as {@link Names} names them, so an edit means the same to every stage. Its hash is the same
 * in every run of one Java, so what is kept on disk may be known by it.
 */
public sealed interface Edit {

    /** Resistance in ohms that stands for a break: a cut wire still leaks a little over its surface. */
    double OPEN_OHMS = 1e9;

    /** Resistance in ohms of a hard short: bare copper pressed on metal. */
    double SHORT_OHMS = 0.5;

    /**
     * An element gets another resistance.
     *
     * @param element element name, {@code wire:W1}, {@code contact:J1/12}, {@code leg:S1/W1} …
     * @param ohms new total resistance of that element, above zero
     */
    record Series(String element, double ohms) implements Edit {
        public Series {
            requirePositive(ohms, element);
        }

        // Written out: what Java makes for a record is linked at first use, which costs a short run milliseconds each.
        @Override
        public boolean equals(Object other) {
            return other instanceof Series s && ohms == s.ohms && element.equals(s.element);
        }

        @Override
        public int hashCode() {
            return 31 * element.hashCode() + Double.hashCode(ohms);
        }
    }

    /**
     * A new conducting path between two points.
     *
     * @param pointA first point
     * @param pointB second point, possibly {@link Names#CHASSIS}
     * @param ohms resistance of the path, above zero
     */
    record Bridge(String pointA, String pointB, double ohms) implements Edit {
        public Bridge {
            if (!(ohms > 0)) requirePositive(ohms, pointA + "–" + pointB);
        }

        @Override
        public boolean equals(Object other) {
            return other instanceof Bridge b && ohms == b.ohms && pointA.equals(b.pointA) && pointB.equals(b.pointB);
        }

        @Override
        public int hashCode() {
            return 31 * (31 * pointA.hashCode() + pointB.hashCode()) + Double.hashCode(ohms);
        }
    }

    /**
     * A source with its own resistance between two points, {@code I(A→B) = (v[A] − v[B] − volts) / ohms}: an ohmmeter's
     * test voltage, or a battery and lamp that load a wire.
     *
     * @param pointA point that the source drives positive
     * @param pointB second point, possibly {@link Names#CHASSIS}
     * @param volts open-circuit voltage
     * @param ohms internal resistance, above zero
     */
    record Source(String pointA, String pointB, double volts, double ohms) implements Edit {
        public Source {
            if (!(ohms > 0)) requirePositive(ohms, pointA + "–" + pointB);
            if (!Double.isFinite(volts))
                throw new IllegalArgumentException(
                        "voltage " + volts + " V of a source at " + pointA + " is no number");
        }
    }

    /**
     * A device's own quantity is not what it should be: a drifted sensor, or a true engine condition.
     *
     * @param device device id
     * @param quantity which of its quantities
     * @param value new value in the quantity's unit
     */
    record Value(String device, Quantity quantity, double value) implements Edit {
        @Override
        public boolean equals(Object other) {
            return other instanceof Value v
                    && Double.compare(value, v.value) == 0
                    && quantity == v.quantity
                    && device.equals(v.device);
        }

        @Override
        public int hashCode() {
            return 31 * (31 * device.hashCode() + quantity.ordinal()) + Double.hashCode(value);
        }
    }

    /**
     * A device or control-unit rail no longer acts: a dead node, a sensor that no longer switches, a dead 5 V rail.
     *
     * @param what device id, or rail id
     */
    record Dead(String what) implements Edit {}

    /** What {@link Value} may change. */
    enum Quantity {
        /** Temperature of an NTC, degrees Celsius. */
        CELSIUS,
        /** Output of a ratiometric sensor as a share of its supply. */
        FRACTION,
        /** Resistance of a probe or load, ohms. */
        OHMS,
        /** Multiplier on the resistance of an NTC, coil, heater, motor or probe. */
        OHMS_FACTOR,
        /** Open-circuit voltage above which neither battery nor charging system gets, volts. */
        VOLTS,
        /** The same with the engine stopped only, volts: the battery alone. */
        RESTING_VOLTS
    }

    private static void requirePositive(double ohms, String where) {
        if (!(ohms > 0))
            throw new IllegalArgumentException("resistance " + ohms + " ohm at " + where + " must be above 0");
    }
}
