package loomcase.model;

import java.util.Locale;

/**
 * A conductor size and its resistance per metre.
 *
 * <p>Copper of volume resistivity 1/58 ohm mm²/m at 20 °C (IEC 60028) and temperature coefficient 0.00393 per kelvin;
 * AWG diameters by the formula of ASTM B258, {@code d = 0.127 mm × 92^((36 − n)/39)}. This is the ideal (solid) figure:
 * a stranded conductor may measure up to about a tenth more.
 *
 * @param name as written in the circuit file, {@code AWG18} or {@code 1.5mm2}
 * @param areaSquareMillimetres copper cross-section
 */
public record Conductor(String name, double areaSquareMillimetres) {
    private static final double RESISTIVITY_20 = 1.0 / 58.0;
    private static final double PER_KELVIN = 0.00393;

    public Conductor {
        if (!(areaSquareMillimetres > 0 && areaSquareMillimetres <= 200))
            throw new IllegalArgumentException(
                    "conductor area " + areaSquareMillimetres + " mm² is not within 0 to 200 mm²");
    }

    /**
     * Reads a size such as {@code AWG18} or {@code 1.5mm2}.
     *
     * @throws IllegalArgumentException when the text is neither form
     */
    public static Conductor parse(String text) {
        String t = text.trim().toLowerCase(Locale.ROOT);
        try {
            if (t.startsWith("awg"))
                return new Conductor(
                        text, areaOfAwg(Integer.parseInt(t.substring(3).trim())));
            if (t.endsWith("mm2")) return new Conductor(text, Double.parseDouble(t.substring(0, t.length() - 3)));
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(
                    "wire size '" + text + "' is not a size; write it as AWG18 or 1.5mm2", e);
        }
        throw new IllegalArgumentException("wire size '" + text + "' is not a size; write it as AWG18 or 1.5mm2");
    }

    /** Diameter in millimetres of a solid AWG conductor, ASTM B258. */
    public static double diameterOfAwg(int gauge) {
        return 0.127 * Math.pow(92, (36.0 - gauge) / 39.0);
    }

    private static double areaOfAwg(int gauge) {
        double d = diameterOfAwg(gauge);
        return Math.PI * d * d / 4;
    }

    /** Resistance in ohms of one metre at a conductor temperature in degrees Celsius. */
    public double ohmsPerMetre(double celsius) {
        return RESISTIVITY_20 / areaSquareMillimetres * (1 + PER_KELVIN * (celsius - 20));
    }
}
