package loomcase.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import loomcase.model.Edit;
import loomcase.model.Names;
import org.junit.jupiter.api.Test;

class OutcomesTest {
    private static final Larch LARCH = new Larch();

    private static Distribution bell(double mean, double sigma, double outlier) {
        return new Distribution(List.of(new Distribution.Bell(1, mean, sigma, Outcome.Unit.VOLTS)), outlier, 1);
    }

    @Test
    void twoReadingsFarApartAreTwoOutcomesWithTheWeightsOfTheirHypotheses() {
        var out = Outcomes.of(List.of(bell(0, 0.05, 0), bell(5, 0.05, 0)), List.of(3.0, 1.0), 2);
        assertEquals(2, out.size());
        assertEquals(0.75, out.get(0).probability(), 1e-9);
        assertEquals(List.of(1.0, 0.0), out.get(0).given());
        assertEquals(2.5, out.get(0).high(), 1e-9);
    }

    @Test
    void readingsCloserThanTheMeterCanTellAreOneOutcome() {
        assertEquals(
                1,
                Outcomes.of(List.of(bell(4.9, 0.1, 0), bell(5, 0.1, 0)), List.of(1.0, 1.0), 2)
                        .size());
    }

    @Test
    void overlappingBellsGiveTheirTailsToTheOther() {
        // closed form: a border 1.5 standard deviations away leaves Φ(−1.5) = 0.0668072
        var out = Outcomes.of(List.of(bell(0, 1, 0), bell(3, 1, 0)), List.of(1.0, 1.0), 2);
        assertEquals(
                0.0668072,
                Math.min(out.get(0).given().get(0), out.get(0).given().get(1)),
                1e-7);
    }

    @Test
    void probabilitiesOfARealTestAddUpToOneAndAgreeWithDraws() {
        loomcase.meter.Test volts =
                new loomcase.meter.Test.Volts("C-ECT/1", Names.CHASSIS, LARCH.rest.unplug(List.of("C-ECT")));
        List<Subject> all = List.of(
                Subject.NOTHING,
                Larch.fault(Larch.open("W208")),
                Larch.fault(Larch.bridge("J2/4", Names.CHASSIS)),
                new Subject("contact.fretted", List.of(), true, List.of(Larch.series("W208", Edit.OPEN_OHMS))));
        var likely = LARCH.meter.outcomes(volts, all, List.of(0.4, 0.3, 0.2, 0.1));
        assertEquals(2, likely.size(), likely.toString());
        assertEquals(
                1, likely.stream().mapToDouble(Outcomes.Likely::probability).sum(), 1e-9);
        for (int h = 0; h < all.size(); h++) {
            int which = h;
            assertEquals(
                    1, likely.stream().mapToDouble(l -> l.given().get(which)).sum(), 1e-9);
        }
        Distribution d = LARCH.meter.predict(volts, all.get(3));
        Random random = new Random(5);
        int draws = 20_000;
        int inFirst = 0;
        for (int i = 0; i < draws; i++) {
            double u = random.nextDouble();
            for (Distribution.Part p : d.parts()) {
                u -= p.weight();
                if (u > 0 || !(p instanceof Distribution.Bell b)) continue;
                double x = b.mean() + b.sigma() * random.nextGaussian();
                if (x > likely.get(0).low() && x <= likely.get(0).high()) inFirst++;
                break;
            }
        }
        double expected = likely.get(0).given().get(3);
        double spread = d.outlier() + 4 * Math.sqrt(0.25 / draws);
        assertEquals(expected, inFirst / (double) draws, spread);
    }

    @Test
    void aFaultThatComesAndGoesIsThereForItsShareOfTheTime() {
        loomcase.meter.Test ohms =
                new loomcase.meter.Test.Ohms("J2/4", "C-ECT/1", Setup.off().unplug(List.of("J2", "C-ECT")));
        Subject s = new Subject("contact.fretted", List.of(), true, List.of(Larch.open("W208")));
        assertEquals(0.3, LARCH.meter.predict(ohms, s).probability(new Outcome.OverRange()), 1e-9);
    }

    @Test
    void noReadingIsImpossible() {
        loomcase.meter.Test volts = new loomcase.meter.Test.Volts("C-ECT/1", Names.CHASSIS, LARCH.rest);
        double wild = LARCH.meter.likelihood(volts, Subject.NOTHING, new Outcome.Reading(11, Outcome.Unit.VOLTS));
        assertEquals(0.02 / 40, wild, 1e-12);
    }

    @Test
    void aReadingNearThePredictionSpeaksForTheHypothesisThatPredictsIt() {
        loomcase.meter.Test volts = new loomcase.meter.Test.Volts("C-ECT/1", Names.CHASSIS, LARCH.rest);
        assertEquals("0.00 V", new Outcome.Reading(-0.001, Outcome.Unit.VOLTS).words(), "no meter shows minus nothing");
        assertEquals("999 kohm", new Outcome.Reading(999_400, Outcome.Unit.OHMS).words());
        assertEquals("1.00 Mohm", new Outcome.Reading(999_600, Outcome.Unit.OHMS).words());
        assertEquals("7.14 Mohm", new Outcome.Reading(7_143_000, Outcome.Unit.OHMS).words());
        Outcome five = new Outcome.Reading(4.99, Outcome.Unit.VOLTS);
        Subject openReturn = Larch.fault(Larch.open("W186"));
        assertTrue(LARCH.meter.likelihood(volts, openReturn, five)
                > 50 * LARCH.meter.likelihood(volts, Subject.NOTHING, five));
    }

    @Test
    void moreOhmsThanTheScaleCountAsOverRange() {
        loomcase.meter.Test isolation = new loomcase.meter.Test.Isolation(
                "C-ECT/1", Names.CHASSIS, Setup.off().unplug(List.of("J2", "C-ECT")));
        assertEquals(
                LARCH.meter.likelihood(isolation, Subject.NOTHING, new Outcome.OverRange()),
                LARCH.meter.likelihood(isolation, Subject.NOTHING, new Outcome.Reading(3e7, Outcome.Unit.OHMS)));
    }

    @Test
    void swappedTerminalsDoNotLeadAcrossAPlugThatIsApart() {
        Edit[] swapped = {
            new Edit.Series("contact:J2/4", Edit.OPEN_OHMS),
            new Edit.Series("contact:J2/5", Edit.OPEN_OHMS),
            new Edit.Bridge("J2/4", "J2/5~", 0.005),
            new Edit.Bridge("J2/5", "J2/4~", 0.005)
        };
        assertTrue(LARCH.overRange(
                new loomcase.meter.Test.Isolation(
                        "C-ECT/1", Names.CHASSIS, Setup.off().unplug(List.of("J2", "C-ECT"))),
                swapped));
        assertTrue(LARCH.mean(
                        new loomcase.meter.Test.Isolation(
                                "C-ECT/1", Names.CHASSIS, Setup.batteryOff().unplug(List.of("C-ECT"))),
                        swapped)
                < 1e6);
    }
}
