package loomcase.predict;

import java.util.function.Function;
import loomcase.model.Watch;
import loomcase.solve.Solution;

/**
 * What one watch measures in networks that somebody else has solved, phase by phase: the same definition as {@link
 * Predictor} uses, without its batches.
 *
 * <p>It exists so that the truth of a case may come from another solver or simulator.
 */
public final class Readout {
    private final String controlUnit;
    private final Function<String, Solution> healthy;

    /**
     * @param controlUnit id of the control unit
     * @param healthy the healthy network of a phase, which a departure is measured from
     */
    public Readout(String controlUnit, Function<String, Solution> healthy) {
        this.controlUnit = controlUnit;
        this.healthy = healthy;
    }

    /**
     * The measured value.
     *
     * @param watch the watch
     * @param solved the network of a phase
     * @return volts or amperes as the watch's measure says; NaN when its pin is not wired
     */
    public double value(Watch watch, Function<String, Solution> solved) {
        Watch.Measure m = watch.measure();
        Solution s = solved.apply(m.phase());
        if (m instanceof Watch.PinVolts v) return pin(s, v.pin());
        if (m instanceof Watch.PinAmperes a) return s.driverAmperes(a.pin());
        if (m instanceof Watch.Difference d) return pin(s, d.pin()) - pin(s, d.minusPin());
        if (m instanceof Watch.Departure d) return Math.abs(pin(s, d.pin()) - pin(healthy.apply(d.phase()), d.pin()));
        if (m instanceof Watch.Swing w)
            return Math.abs(
                    against(s, w.pin(), w.minusPin()) - against(solved.apply(w.fromPhase()), w.pin(), w.minusPin()));
        throw new IllegalStateException("unknown measure " + m);
    }

    /** Supply of the control unit in volts. */
    public double supplyVolts(Solution s) {
        return s.supplyVolts(controlUnit);
    }

    private double against(Solution s, String pin, String minusPin) {
        return minusPin.isEmpty() ? pin(s, pin) : pin(s, pin) - pin(s, minusPin);
    }

    private double pin(Solution s, String cavity) {
        return s.pinVolts(controlUnit, cavity).orElse(Double.NaN);
    }
}
