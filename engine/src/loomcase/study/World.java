package loomcase.study;

/**
 * How the world of a study differs from what the engine assumes. All factors are judgement; the study is repeated with
 * other values to show what hangs on them.
 *
 * @param tolerance device tolerances as a multiple of those in the circuit file; 0 makes every part exact
 * @param spread standard deviation of every limit of the control unit as a multiple of the one in the circuit file
 * @param missed probability that a code whose condition holds does not appear
 * @param strayStored probability of an old stored code from another cause, for each code that the control unit can set
 * @param priorSkew faults are drawn with their prior multiplied by 10^(skew·N(0,1)) for each family; 0 draws as the
 *     priors say
 * @param sizes standard deviation of the common logarithm of a fault's true size about that of its hypothesis ({@link
 *     Sizes}); 0 gives every fault the very size that the engine knows
 */
public record World(
        double tolerance, double spread, double missed, double strayStored, double priorSkew, double sizes) {
    /** The world of the main study: parts at their tolerance, limits a little wider, more codes missed, fewer strays,
     * two of three faults within 2.5 times the size that the engine knows. */
    public static final World USUAL = new World(1, 1.2, 0.07, 0.004, 0, 0.4);

    public World {
        if (!(tolerance >= 0 && spread >= 0 && priorSkew >= 0 && sizes >= 0))
            throw new IllegalArgumentException("a world's factors are 0 or more");
        if (!(missed >= 0 && missed < 1 && strayStored >= 0 && strayStored <= 1))
            throw new IllegalArgumentException("a world's probabilities are within 0 to 1");
    }

    /** The same world with everything further off: parts, and the limits, whose spread stands for wires and pull-ups. */
    public World withTolerances(double factor) {
        return new World(factor * tolerance, factor * spread, missed, strayStored, priorSkew, sizes);
    }

    /** The same world with faults that do not come as the priors say. */
    public World withPriorSkew(double skew) {
        return new World(tolerance, spread, missed, strayStored, skew, sizes);
    }
}
