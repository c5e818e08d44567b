package loomcase.solve;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A piecewise-linear part: a clamp, a current-limited supply, a driver, an amplified sensor output.
 *
 * <p>The probe {@code x = (v[p] − v[n]) − factor · (v[p2] − v[n2])} chooses among {@code breaks.length + 1} linear
 * regions, region k reaching from {@code breaks[k−1]} up to {@code breaks[k]}. A gate, when present, switches the whole
 * part off (no stamps, region {@value #OFF}) below a voltage.
 *
 * @param name element name
 * @param gate supply the part needs, empty for none
 * @param probe what chooses the region
 * @param breaks region borders in volts, ascending
 * @param regions stamps of each region
 */
record Part(String name, Optional<Gate> gate, Probe probe, double[] breaks, List<List<Stamp>> regions) {
    /** Region number of a part whose gate is closed. */
    static final int OFF = -1;

    /** Works while {@code v[plus] − v[minus] ≥ volts}. */
    record Gate(int plus, int minus, double volts) {
        /** A gate that nothing opens: the part is dead. */
        static final Gate NEVER = new Gate(0, 0, 1);

        private boolean looksAt(Gate other) {
            return plus == other.plus && minus == other.minus;
        }
    }

    /** Controlling quantity of a part, volts. */
    record Probe(int p, int n, int p2, int n2, double factor) {
        static Probe across(int p, int n) {
            return new Probe(p, n, 0, 0, 0);
        }

        double at(double[] volts) {
            double x = volts[p] - volts[n];
            return factor == 0 ? x : x - factor * (volts[p2] - volts[n2]);
        }

        double at(NodeVolts volts) {
            double x = volts.at(p) - volts.at(n);
            return factor == 0 ? x : x - factor * (volts.at(p2) - volts.at(n2));
        }
    }

    Part {
        breaks = breaks.clone();
        regions = regions.stream().map(List::copyOf).toList();
        if (regions.size() != breaks.length + 1)
            throw new IllegalArgumentException(name + ": " + regions.size() + " regions need one break less");
    }

    /** The same part without its function. */
    Part dead() {
        return new Part(name, Optional.of(Gate.NEVER), probe, breaks, regions);
    }

    /** True when it chooses its region by the same voltages as another part; one without a gate looks at none there. */
    boolean looksLike(Part other) {
        return probe.equals(other.probe) && (gate.isEmpty() || gate.get().looksAt(other.gate.orElse(Gate.NEVER)));
    }

    /** Stamps of a region; none when off. */
    List<Stamp> stamps(int region) {
        return region == OFF ? List.of() : regions.get(region);
    }

    /** The region that the node voltages call for. */
    int regionAt(double[] volts) {
        if (gate.isPresent()) {
            Gate g = gate.get();
            if (volts[g.plus()] - volts[g.minus()] < g.volts()) return OFF;
        }
        return regionAt(probe.at(volts));
    }

    /**
     * The next region on the way to the one the voltages call for: never more than one border at a time.
     *
     * <p>A current-limited supply that is unloaded in its limit region floats far above its set voltage, and in its idle
     * region far below: jumping between the two would pass over the region between them for ever.
     */
    int towards(int region, double[] volts) {
        int wanted = regionAt(volts);
        if (wanted == OFF || region == OFF) return wanted;
        return region + Integer.signum(wanted - region);
    }

    /** How far, in volts, the voltages lie outside a region; 0 when inside. */
    double violation(int region, double[] volts) {
        double over = gate.isEmpty()
                ? 0
                : volts[gate.get().plus()]
                        - volts[gate.get().minus()]
                        - gate.get().volts();
        return violation(region, over, probe.at(volts));
    }

    /** The same, looking only at the nodes that the part depends on. */
    double violation(int region, NodeVolts volts) {
        double over = gate.isEmpty()
                ? 0
                : volts.at(gate.get().plus())
                        - volts.at(gate.get().minus())
                        - gate.get().volts();
        return violation(region, over, probe.at(volts));
    }

    private double violation(int region, double over, double x) {
        if (gate.isPresent()) {
            if ((over >= 0) != (region != OFF)) return Math.abs(over);
            if (region == OFF) return 0;
        }
        if (region > 0 && x < breaks[region - 1]) return breaks[region - 1] - x;
        if (region < breaks.length && x > breaks[region]) return x - breaks[region];
        return 0;
    }

    private int regionAt(double x) {
        int k = 0;
        while (k < breaks.length && x >= breaks[k]) k++;
        return k;
    }

    /** Current in amperes from the part's first node to its second, in a region. */
    double current(int region, double[] volts) {
        double sum = 0;
        List<Stamp> stamps = stamps(region);
        for (int s = 0; s < stamps.size(); s++) sum += stamps.get(s).current(volts);
        return sum;
    }

    /** The same, looking only at the nodes that the part depends on. */
    double current(int region, NodeVolts volts) {
        double sum = 0;
        for (Stamp s : stamps(region)) sum += s.current(volts);
        return sum;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Part p
                && name.equals(p.name)
                && gate.equals(p.gate)
                && probe.equals(p.probe)
                && Arrays.equals(breaks, p.breaks)
                && regions.equals(p.regions);
    }

    @Override
    public int hashCode() {
        return name.hashCode();
    }
}
