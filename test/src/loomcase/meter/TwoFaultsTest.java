package loomcase.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Set;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import org.junit.jupiter.api.Test;

/** Tests made where two faults are there at once, beside what each of them shows alone. */
class TwoFaultsTest {
    private static final Larch LARCH = new Larch();
    private static final PlaceId PIN = new PlaceId(PlaceId.Kind.CAVITY, "C-ECT/1");
    private static final PlaceId PLUG = new PlaceId(PlaceId.Kind.CONNECTOR, "C-ECT");
    private static final PlaceId SENSOR = new PlaceId(PlaceId.Kind.DEVICE, "OPS");

    private static Subject backedOut(boolean comesAndGoes) {
        return new Subject(
                "contact.backed-out",
                List.of(PIN),
                comesAndGoes,
                List.of(new Edit.Series("contact:C-ECT/1", Edit.OPEN_OHMS)));
    }

    private static Subject sensor() {
        return new Subject(
                "device.ratiometric.open", List.of(SENSOR), false, List.of(Larch.series("W213", Edit.OPEN_OHMS)));
    }

    private static double noticed(loomcase.meter.Test test, Subject s, Outcome.Sign sign) {
        return LARCH.meter.predict(test, s).probability(new Outcome.Noticed(sign));
    }

    private static double found(loomcase.meter.Test test, Subject s) {
        return 1 - LARCH.meter.likelihood(test, s, Outcome.Seen.CLEAN);
    }

    @Test
    void aLookAtOneOfThemFindsItAsOftenAsAlone() {
        var look = new loomcase.meter.Test.Look(PLUG);
        double alone = found(look, backedOut(false));
        assertEquals(alone, found(look, Subject.both(backedOut(false), sensor())), 1e-12);
        assertEquals(alone, found(look, Subject.both(sensor(), backedOut(false))), 1e-12);
        var away = new loomcase.meter.Test.Look(new PlaceId(PlaceId.Kind.CONNECTOR, "C-EBP"));
        assertEquals(found(away, Subject.NOTHING), found(away, Subject.both(backedOut(false), sensor())), 1e-12);
    }

    /** Two independent chances at one place: 1 − (1 − p)² of what is beyond a false alarm. */
    @Test
    void twoFaultsAtOnePlaceAreFoundMoreOften() {
        var look = new loomcase.meter.Test.Look(PLUG);
        Subject other = new Subject(
                "contact.backed-out", List.of(new PlaceId(PlaceId.Kind.CAVITY, "C-ECT/2")), false, List.of());
        double none = 1 - found(look, Subject.NOTHING);
        double missed = 1 - found(look, backedOut(false));
        assertEquals(1 - missed * missed / none, found(look, Subject.both(backedOut(false), other)), 1e-12);
    }

    @Test
    void theFaultThatComesAndGoesIsAwayFromAReadingAsOftenAsAlone() {
        var volts = new loomcase.meter.Test.Volts("J2/4", Names.CHASSIS, LARCH.rest);
        Distribution alone = LARCH.meter.predict(volts, backedOut(true));
        assertEquals(
                List.of(0.3, 0.7),
                alone.parts().stream().map(Distribution.Part::weight).toList());
        Distribution both = LARCH.meter.predict(volts, Subject.both(sensor(), backedOut(true)));
        assertEquals(
                List.of(0.3, 0.7),
                both.parts().stream().map(Distribution.Part::weight).toList());
        // The other fault is at another circuit and moves this one but little.
        for (int i = 0; i < 2; i++) assertEquals(mean(alone, i), mean(both, i), 0.05, "part " + i);
    }

    private static double mean(Distribution d, int part) {
        return ((Distribution.Bell) d.parts().get(part)).mean();
    }

    @Test
    void bothPlacesAreNamed() {
        assertEquals(
                Set.of(PIN, SENSOR), Subject.both(backedOut(false), sensor()).named());
        assertEquals(Set.of(PIN), backedOut(false).named());
        assertEquals(Set.of(), Subject.NOTHING.named());
    }
}
