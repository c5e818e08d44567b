package loomcase.rank;

import java.util.Optional;
import java.util.OptionalInt;
import loomcase.faults.Priors;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;

/**
 * The slow twin of {@link Likelihood}: plain products over every code, from the sentences in its documentation and the
 * priors file, sharing no code with it.
 */
final class SlowLikelihood {
    private static final double KEPT = 0.9;
    private static final double STRAY_MEAN = 1.5;

    private final Circuit circuit;
    private final Predictor predictor;
    private final Evidence evidence;
    private final Priors priors;
    private final double[] healthy;
    private final boolean[] lookedFor;

    SlowLikelihood(Circuit circuit, Predictor predictor, Evidence evidence, Priors priors) {
        this.circuit = circuit;
        this.predictor = predictor;
        this.evidence = evidence;
        this.priors = priors;
        this.healthy = predictor.healthy();
        this.lookedFor = predictor.lookedFor();
    }

    /** Likelihood of all codes seen and not seen, over that of a healthy engine. */
    double ratio(Prediction p, boolean comesAndGoes) {
        double lasting = priors.get("observe.count-mean-permanent");
        double base = product(new Prediction(new int[0], new double[0], true), lasting, true, 0);
        if (!comesAndGoes) return product(p, lasting, true, 0) / base;
        double share = priors.get("observe.intermittent-active-share");
        double mean = priors.get("observe.count-mean-intermittent");
        return (share * product(p, mean, true, 0) + (1 - share) * product(p, mean, false, KEPT)) / base;
    }

    /** The same when every code seen is a stray: none of them is counted as shown by the fault. */
    double straysOnly(Prediction p, boolean comesAndGoes) {
        double lasting = priors.get("observe.count-mean-permanent");
        double base = product(new Prediction(new int[0], new double[0], true), lasting, true, 0);
        if (!comesAndGoes) return strays(p, true, 0) / base;
        double share = priors.get("observe.intermittent-active-share");
        return (share * strays(p, true, 0) + (1 - share) * strays(p, false, KEPT)) / base;
    }

    private double strays(Prediction p, boolean present, double kept) {
        double out = 1;
        for (int c = 0; c < healthy.length; c++) {
            double q = p.of(c, healthy[c]);
            boolean own = java.util.Arrays.binarySearch(p.codes(), c) >= 0;
            double stored = seen(c, Evidence.State.STORED) ? kept * q : 0;
            out *= own && (seen(c, Evidence.State.STORED) || seen(c, Evidence.State.ACTIVE))
                    ? (1 - (present ? q : stored)) * one(c, 0, STRAY_MEAN, present, 0)
                    : one(c, q, priors.get("observe.count-mean-permanent"), present, kept);
        }
        return out;
    }

    private boolean seen(int c, Evidence.State state) {
        Code code = predictor.table().codes().get(c);
        return evidence.codes().stream().anyMatch(s -> s.code().equals(code) && s.state() == state);
    }

    /** Probability that a fault shows no code of its own, active or stored. */
    double silent(Prediction p, boolean comesAndGoes) {
        double now = 1;
        double away = 1;
        for (int k = 0; k < p.codes().length; k++)
            if (lookedFor[p.codes()[k]]) {
                now *= 1 - p.probability()[k];
                away *= 1 - KEPT * p.probability()[k];
            }
        double share = priors.get("observe.intermittent-active-share");
        return comesAndGoes ? share * now + (1 - share) * away : now;
    }

    /** Probability that a healthy engine shows some code that nothing caused. */
    double someStray() {
        double none = 1;
        for (boolean looked : lookedFor)
            if (looked) none *= (1 - priors.get("observe.stray-code")) * (1 - priors.get("observe.stray-stored-code"));
        return 1 - none;
    }

    /** Odds, against nothing being wrong, of a cause outside the model. */
    double outsideOdds() {
        double rate = priors.get("observe.outside-code");
        double lasting = priors.get("observe.count-mean-permanent");
        double odds = priors.get("observe.outside-model");
        for (int c = 0; c < healthy.length; c++) {
            if (!settable(c)) continue;
            odds *= one(c, rate, lasting, true, 0) / one(c, healthy[c], lasting, true, 0);
        }
        return odds;
    }

    /** A code of an SPN that the circuit does not watch says nothing about this circuit. */
    private boolean settable(int code) {
        return circuit.watches().stream()
                .anyMatch(w -> w.spn() == predictor.table().codes().get(code).spn());
    }

    private double product(Prediction p, double mean, boolean present, double kept) {
        double out = 1;
        for (int c = 0; c < healthy.length; c++) out *= one(c, p.of(c, healthy[c]), mean, present, kept);
        return out;
    }

    private double one(int c, double q, double mean, boolean present, double kept) {
        double stray = priors.get("observe.stray-code");
        double strayStored = priors.get("observe.stray-stored-code");
        double active = present ? 1 - (1 - q) * (1 - stray) : stray;
        double stored = 1 - (1 - kept * q) * (1 - strayStored);
        Code code = predictor.table().codes().get(c);
        Optional<Evidence.Seen> seen =
                evidence.codes().stream().filter(s -> s.code().equals(code)).findFirst();
        if (seen.isEmpty()) return lookedFor[c] ? (1 - active) * (1 - stored) : 1;
        OptionalInt count = seen.get().count();
        if (seen.get().state() == Evidence.State.ACTIVE) {
            double own = present ? q : 0;
            return own * counted(count, mean) + (active - own) * counted(count, STRAY_MEAN);
        }
        double own = kept * q;
        return (1 - active) * (own * counted(count, mean) + (stored - own) * counted(count, STRAY_MEAN));
    }

    private static double counted(OptionalInt count, double mean) {
        if (count.isEmpty()) return 1;
        return 0.95 / mean * Math.pow(1 - 1 / mean, count.getAsInt() - 1) + 0.05 / 126;
    }
}
