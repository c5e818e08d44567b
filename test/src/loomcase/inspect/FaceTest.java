package loomcase.inspect;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.casework.Answer;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.casework.Shop;
import loomcase.journal.Admission;
import loomcase.journal.Fact;
import loomcase.journal.Meter;
import loomcase.journal.Setup;
import loomcase.journal.Shown;
import loomcase.model.Connector;
import loomcase.model.PlaceId;
import org.junit.jupiter.api.Test;

/** Faces of all plugs of the reference harness, in a case about it. */
class FaceTest {
    private final OpenCase open = new Casework(Shop.BUILT_IN).open(Path.of("demo-cases/shared-splice.jsonl"));
    private final Answer answer = open.answer();

    private Face face(String connector) {
        Volts volts = new Volts(open, answer, new Volts.Moment("key-on", "rest"), 1);
        return Face.of(open, answer, new PlaceId(PlaceId.Kind.CONNECTOR, connector), volts);
    }

    @Test
    void everyPlugShowsAllItsCavitiesAndABlankHasNoVolts() {
        for (Connector c : open.circuit().connectors().values()) {
            List<String> cavities = c.rows().stream()
                    .flatMap(List::stream)
                    .map(x -> c.id() + "/" + x)
                    .toList();
            List<Face.Row> rows = face(c.id()).rows();
            assertEquals(
                    cavities.subList(0, rows.size()),
                    rows.stream().map(Face.Row::point).toList());
            for (Face.Row r : rows) {
                boolean wired = !r.wires().isEmpty();
                if (wired) assertTrue(r.volts().healthy().isPresent(), r.toString());
            }
        }
        Face.Row blank = face("J2").rows().get(13);
        assertEquals("J2/14", blank.point());
        assertEquals(OptionalDouble.empty(), blank.volts().healthy());
    }

    /** A fault that is half of several pairs would fill the list with the same words. */
    @Test
    void everyFaultWeighedAtAPlaceIsThereOnce() {
        List<String> words =
                face("J2").suspects().stream().map(Face.Fault::words).toList();
        assertEquals(words.stream().distinct().toList(), words);
    }

    /** The network has to answer for every point that a reading may name. */
    @Test
    void everyPointThatMayBeNamedHasVolts() {
        Volts volts = new Volts(open, answer, new Volts.Moment("key-on", "rest"), 1);
        List<String> points = open.check().names().points();
        volts.of(points).forEach((point, at) -> assertTrue(at.healthy().isPresent(), point));
    }

    /** Cavity 14 of J2 is a blank in the file; such a line used to be taken, and no answer was to be had of the case any more. */
    @Test
    void aReadingAtABlankIsRefused() {
        Fact reading = new Fact.Reading(
                Fact.Test.VOLTS,
                "J2/14",
                "chassis",
                Shown.parse("0V"),
                Setup.at(Optional.of("key-on")),
                Meter.NOT_SAID);
        assertEquals(
                new Admission.Refused("cavity J2/14 holds no wire and no pin, so there is nothing to read; look at the"
                        + " number again, or write a note"),
                open.check().admit(reading));
    }
}
