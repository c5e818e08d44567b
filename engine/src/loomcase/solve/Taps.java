package loomcase.solve;

import java.util.Arrays;
import java.util.List;

/**
 * The voltages that somebody looks at, each a {@link Part.Probe} with a range: what parts and fuses choose their state by, and
 * what watches read.
 *
 * <p>A tap is linear in the node voltages, so what a sum of solutions shows at all of them is the sum of what each shows;
 * nodes need not be looked at again.
 *
 * <p>Units: volts.
 */
final class Taps {
    /** Stands for no part, no fuse. */
    static final int NONE = -1;

    /**
     * One voltage looked at.
     *
     * @param least of the range that it may have, minus infinity where anything goes
     * @param most of that range
     * @param part number of the part that stays in its region within the range, or {@link #NONE}
     * @param fuse number of the element that holds within the range, or {@link #NONE}
     */
    record Tap(Part.Probe probe, double least, double most, int part, int fuse) {
        /** True when the voltage is within the range. */
        boolean holds(double volts) {
            return volts >= least && volts <= most;
        }

        /** A voltage that is only read. */
        static Tap read(int plus, int minus) {
            return new Tap(
                    Part.Probe.across(plus, minus), Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, NONE, NONE);
        }
    }

    private final Tap[] taps;
    private final double[] least;
    private final double[] most;

    Taps(List<Tap> taps) {
        this.taps = taps.toArray(Tap[]::new);
        this.least = taps.stream().mapToDouble(Tap::least).toArray();
        this.most = taps.stream().mapToDouble(Tap::most).toArray();
    }

    int size() {
        return taps.length;
    }

    Tap get(int tap) {
        return taps[tap];
    }

    /** What every tap shows of these node voltages, chassis first. */
    double[] of(double[] volts) {
        return Arrays.stream(taps).mapToDouble(t -> t.probe.at(volts)).toArray();
    }

    /** The first tap from one on that shows less or more than it may; as many as there are when none does. */
    int outside(double[] shown, int from) {
        int i = from;
        while (i < least.length && shown[i] >= least[i] && shown[i] <= most[i]) i++;
        return i;
    }
}
