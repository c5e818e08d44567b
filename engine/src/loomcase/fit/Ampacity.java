package loomcase.fit;

import loomcase.model.Conductor;

/**
 * Amperes that a wire in a bundle may carry for long: FAA AC 43.13-1B, table 11-9, column for wire of 105 °C in bundles.
 *
 * <p>Of a size between two rows the smaller row counts; a size below the table carries in proportion to its area.
 */
final class Ampacity {
    private static final int[] GAUGE = {8, 10, 12, 14, 16, 18, 20, 22, 24};
    private static final double[] AMPERES = {38, 17, 13, 10, 7, 6, 4, 3, 2.5};

    /** A metric size that is within this share below a gauge counts as that gauge: 0.75 mm² is called AWG 18. */
    private static final double NOMINAL = 0.90;

    private Ampacity() {}

    static double amperes(Conductor size) {
        double area = size.areaSquareMillimetres();
        for (int i = 0; i < GAUGE.length; i++) {
            double row = area(GAUGE[i]);
            if (area >= row * NOMINAL) return i == 0 ? AMPERES[0] * Math.max(1, area / row) : AMPERES[i];
        }
        return AMPERES[GAUGE.length - 1] * area / area(GAUGE[GAUGE.length - 1]);
    }

    private static double area(int gauge) {
        double d = Conductor.diameterOfAwg(gauge);
        return Math.PI * d * d / 4;
    }
}
