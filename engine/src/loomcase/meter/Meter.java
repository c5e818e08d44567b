package loomcase.meter;

/**
 * The instrument in the technician's hand.
 *
 * <p>As an ohmmeter it is a small voltage behind a resistance, so that diodes, clamps and amplifiers of what it measures do
 * not conduct (they need {@code 0.6 V} or a supply). It shows {@code testOhms · v / (testVolts − v)} with v between its
 * leads, plus the leads' own resistance unless they were zeroed.
 *
 * @param inputOhms resistance between its leads when it measures volts
 * @param leadOhms resistance of both leads together
 * @param leadsZeroed whether the leads' resistance is taken off the reading
 * @param testVolts open-circuit voltage of the ohmmeter
 * @param testOhms its source resistance
 * @param fullScaleOhms readings above this are shown as over range
 */
public record Meter(
        double inputOhms,
        double leadOhms,
        boolean leadsZeroed,
        double testVolts,
        double testOhms,
        double fullScaleOhms) {
    /**
     * A usual hand-held meter: 10 Mohm input (from memory), 0.2 ohm leads and 0.3 V behind 1 kohm (judgement). Real meters
     * reach 40 Mohm or more; 10 Mohm counts as over range here because the model's insulation of 1 Gohm a point is not
     * meant to be measured.
     */
    public static final Meter USUAL = new Meter(1e7, 0.2, true, 0.3, 1000, 1e7);

    public Meter {
        positive("inputOhms", inputOhms);
        positive("testVolts", testVolts);
        positive("testOhms", testOhms);
        positive("fullScaleOhms", fullScaleOhms);
        if (!(leadOhms >= 0)) throw new IllegalArgumentException("leadOhms is " + leadOhms + "; allowed is 0 or more");
    }

    private static void positive(String name, double value) {
        if (!(value > 0)) throw new IllegalArgumentException(name + " is " + value + "; allowed is above 0");
    }

    /** The same meter with leads that have, or have not, been zeroed. */
    public Meter zeroed(boolean zeroed) {
        return new Meter(inputOhms, leadOhms, zeroed, testVolts, testOhms, fullScaleOhms);
    }
}
