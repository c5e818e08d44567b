package loomcase.verdict;

import loomcase.model.Conductor;

/**
 * What a new wire or joint carries, what it drops, and what it may carry.
 *
 * <p>Drop: {@code I · (ρ(T) · length + joints)}. Ampacity: continuous current of a copper wire in a large bundle, FAA AC
 * 43.13-1B table 11-9, column for 105 °C conductors in 70 °C surroundings, scaled to other temperatures by the square root
 * of the rise allowed (paragraph 11-66, whose estimate of conductor temperature, {@code T2 = T1 + (TR − T1)·√(I2/Imax)},
 * is the more cautious). Between the sizes of the table the current goes with a power of the area. The table is for a wire
 * among 33 or more at 60,000 ft and so errs on the safe side.
 *
 * @param wire wire replaced or joined
 * @param size size of the new wire, never thinner than the old
 * @param amperes most it is asked to carry
 * @param basis where that figure comes from
 * @param metres length of the new wire with its joints
 * @param celsius temperature of the surroundings
 * @param volts drop that the repair puts into the circuit beyond nothing
 * @param addedVolts drop more than the old wire had: the joints
 * @param ampacity most it may carry there
 */
public record WireLoad(
        String wire,
        Conductor size,
        double amperes,
        String basis,
        double metres,
        double celsius,
        double volts,
        double addedVolts,
        double ampacity) {
    /** Resistance in ohms of a good crimp splice (common practice, no source: 2 to 6 milliohms for a mated contact). */
    static final double JOINT_OHMS = 0.005;

    /** Highest conductor temperature of cross-linked wire, degrees Celsius (SAE J1128 types TXL, GXL, SXL). */
    static final double CROSS_LINKED = 125;

    /** The same for fluoropolymer and silicone (FEP, ETFE, PTFE: 150 to 260 by type; 150 taken, from memory). */
    static final double FLUORINATED = 150;

    /** The same for PVC (SAE J1128 type GPT: 80 to 85 in trade tables). */
    static final double PVC = 80;

    /** Stranded over ideal copper (ISO 6722-1 limits are up to a tenth above it; see {@link Conductor}). */
    static final double STRANDED = 1.1;

    private static final double TABLE_AMBIENT = 70;
    private static final double TABLE_CONDUCTOR = 105;

    /** Gauge and amperes, AC 43.13-1B table 11-9. */
    private static final double[][] TABLE = {
        {24, 2.5}, {22, 3}, {20, 4}, {18, 6}, {16, 7}, {14, 10}, {12, 13}, {10, 17}, {8, 38}, {6, 50}, {4, 68}, {2, 95}
    };

    /** True when the wire may carry what it is asked to. */
    public boolean carries() {
        return amperes <= ampacity;
    }

    /**
     * A repair with some metres of new wire and some joints.
     *
     * @param insulation insulation class of the old wire
     */
    static WireLoad of(
            String wire,
            Conductor size,
            String insulation,
            double amperes,
            String basis,
            double metres,
            int joints,
            double celsius) {
        double added = amperes * joints * JOINT_OHMS;
        return new WireLoad(
                wire,
                size,
                amperes,
                basis,
                metres,
                celsius,
                dropVolts(size, metres, celsius, amperes) + added,
                added,
                ampacity(size.areaSquareMillimetres(), celsius, limit(insulation)));
    }

    /** Drop in volts along a stranded copper wire. */
    static double dropVolts(Conductor size, double metres, double celsius, double amperes) {
        return amperes * metres * STRANDED * size.ohmsPerMetre(celsius);
    }

    /** Highest conductor temperature of an insulation class; an unknown class is taken as PVC. */
    static double limit(String insulation) {
        if (insulation.matches("(?i).*(FEP|ETFE|PTFE|silicone).*")) return FLUORINATED;
        return insulation.matches("(?i).*(XL|cross).*") ? CROSS_LINKED : PVC;
    }

    /**
     * Continuous amperes of a wire in a bundle.
     *
     * @param square area in square millimetres
     * @param celsius surroundings
     * @param limit highest conductor temperature
     * @return 0 where the surroundings are as hot as the wire may become
     */
    static double ampacity(double square, double celsius, double limit) {
        if (celsius >= limit) return 0;
        int i = 1;
        while (i < TABLE.length - 1 && square > area(i)) i++;
        double slope = Math.log(TABLE[i][1] / TABLE[i - 1][1]) / Math.log(area(i) / area(i - 1));
        double base = TABLE[i - 1][1] * Math.pow(square / area(i - 1), slope);
        return base * Math.sqrt((limit - celsius) / (TABLE_CONDUCTOR - TABLE_AMBIENT));
    }

    private static double area(int row) {
        double d = Conductor.diameterOfAwg((int) TABLE[row][0]);
        return Math.PI * d * d / 4;
    }
}
