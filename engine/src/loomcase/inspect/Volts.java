package loomcase.inspect;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.casework.Answer;
import loomcase.casework.OpenCase;
import loomcase.journal.Fact;
import loomcase.journal.Standing;
import loomcase.meter.MeterPrediction;
import loomcase.meter.Setup;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.model.Names;
import loomcase.rank.Ranking;

/**
 * Volts of points against the chassis at one moment: healthy, under a suspect, and as measured.
 *
 * <p>Cost: two predictions a point.
 */
public final class Volts {
    /**
     * A moment at which volts are taken.
     *
     * @param operatingPoint id of an operating point
     * @param phase id of one of its phases
     */
    public record Moment(String operatingPoint, String phase) {}

    /**
     * Volts at one point, against the chassis.
     *
     * @param healthy with nothing wrong; empty where the network gives none
     * @param suspected with the suspect's most probable fault present
     * @param measured what the last standing reading at this moment's operating point showed, in its own words
     */
    public record At(OptionalDouble healthy, OptionalDouble suspected, Optional<String> measured) {}

    private static final At NOTHING_THERE = new At(OptionalDouble.empty(), OptionalDouble.empty(), Optional.empty());

    private final OpenCase open;
    private final Answer answer;
    private final Moment moment;
    private final Subject suspected;

    /**
     * @param suspect rank of the suspect, from 1; one that is not there stands for nothing wrong
     */
    public Volts(OpenCase open, Answer answer, Moment moment, int suspect) {
        this.open = open;
        this.answer = answer;
        this.moment = moment;
        List<Ranking.Suspect> suspects = answer.ranking().suspects();
        this.suspected = suspect > suspects.size()
                ? Subject.NOTHING
                : present(suspects.get(suspect - 1).members().get(0).subject());
    }

    /** The fault while it is there; one that comes and goes would else be a mean of both. */
    private static Subject present(Subject s) {
        return new Subject(s.family(), s.places(), false, s.edits());
    }

    /** Volts of these points, in their order; none at a cavity that holds nothing. */
    public Map<String, At> of(List<String> points) {
        Map<String, At> out = new LinkedHashMap<>();
        Set<String> readable = Set.copyOf(open.check().names().points());
        answer.predicting(meter -> {
            for (String point : points)
                if (!readable.contains(point)) out.put(point, NOTHING_THERE);
                else
                    out.put(
                            point,
                            new At(
                                    predicted(meter, point, Subject.NOTHING),
                                    predicted(meter, point, suspected),
                                    measured(point)));
            return out;
        });
        return out;
    }

    private OptionalDouble predicted(MeterPrediction meter, String point, Subject subject) {
        if (point.equals(Names.CHASSIS)) return OptionalDouble.of(0);
        Setup setup = Setup.on(moment.operatingPoint(), moment.phase());
        double mean = meter.predict(new Test.Volts(point, Names.CHASSIS, setup), subject)
                .mean();
        return Double.isNaN(mean) ? OptionalDouble.empty() : OptionalDouble.of(mean);
    }

    /** A reading in another state of the plugs says nothing of this one and is passed over. */
    private Optional<String> measured(String point) {
        Optional<String> last = Optional.empty();
        for (Standing s : open.journal().standing())
            if (s.fact() instanceof Fact.Reading r
                    && r.test() == Fact.Test.VOLTS
                    && r.a().equals(point)
                    && r.b().equals(Names.CHASSIS)
                    && r.setup().operatingPoint().equals(Optional.of(moment.operatingPoint()))
                    && r.setup().unplugged().isEmpty()
                    && r.setup().jumpers().isEmpty()) last = Optional.of(r.shown() + " (line " + s.n() + ")");
        return last;
    }
}
