package loomcase.claim;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.casework.OpenCase;
import loomcase.intake.CaseIntake;
import loomcase.journal.Fact;
import loomcase.meter.Distribution;
import loomcase.meter.Outcome;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.print.Wording;
import loomcase.rank.Evidence;

/**
 * What a meter shows on a healthy harness, predicted by the network with the setup of the reading applied: mean and twice
 * the standard deviation to either side, tolerances of devices, wires and meter in it.
 */
final class Limits {
    /** Nineteen healthy readings of twenty lie within. */
    private static final double SIGMAS = 2;

    /** From this probability of over range on, over range is what a healthy harness shows. */
    private static final double USUALLY = 0.5;

    private final OpenCase open;
    private final Wording words;
    private final Figures figures;

    Limits(OpenCase open, Wording words, Figures figures) {
        this.open = open;
        this.words = words;
        this.figures = figures;
    }

    /** The limit of a reading, empty when the network cannot say. */
    Optional<Packet.Limit> of(Fact.Reading reading) {
        if (!open.hasCodes()) return Optional.empty();
        Test test = CaseIntake.tested(open.circuit(), reading).orElseThrow().test();
        Evidence evidence = open.answer().intake().evidence();
        try {
            Distribution d =
                    open.bench().solving(ranker -> ranker.meter(evidence).predict(test, Subject.NOTHING));
            return limit(d, fullScale(test));
        } catch (InputProblem e) {
            return Optional.empty();
        }
    }

    private static double fullScale(Test test) {
        return test instanceof Test.Numeric n ? n.setup().meter().fullScaleOhms() : Double.POSITIVE_INFINITY;
    }

    private Optional<Packet.Limit> limit(Distribution d, double fullScale) {
        if (d.probability(new Outcome.OverRange()) >= USUALLY)
            return Optional.of(new Packet.Limit(
                    words.say("limit.open", figures.rounded(fullScale / 1e6)),
                    OptionalDouble.of(fullScale),
                    OptionalDouble.empty(),
                    true));
        List<Distribution.Bell> bells = d.parts().stream()
                .filter(Distribution.Bell.class::isInstance)
                .map(Distribution.Bell.class::cast)
                .toList();
        if (bells.isEmpty()) return Optional.empty();
        double low = bells.stream()
                .mapToDouble(b -> b.mean() - SIGMAS * b.sigma())
                .min()
                .orElseThrow();
        double high = bells.stream()
                .mapToDouble(b -> b.mean() + SIGMAS * b.sigma())
                .max()
                .orElseThrow();
        boolean ohms = bells.get(0).unit() == Outcome.Unit.OHMS;
        double least = ohms ? Math.max(0, low) : low;
        String range = words.say(
                "limit.range",
                figures.rounded(least / scale(ohms, high)),
                figures.rounded(high / scale(ohms, high)),
                unit(ohms, high));
        return Optional.of(new Packet.Limit(range, OptionalDouble.of(least), OptionalDouble.of(high), false));
    }

    private static double scale(boolean ohms, double high) {
        if (!ohms) return 1;
        return high >= 1e6 ? 1e6 : high >= 1e3 ? 1e3 : 1;
    }

    private static String unit(boolean ohms, double high) {
        if (!ohms) return "V";
        return high >= 1e6 ? "Mohm" : high >= 1e3 ? "kohm" : "ohm";
    }
}
