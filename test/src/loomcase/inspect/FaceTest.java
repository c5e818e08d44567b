package loomcase.inspect;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import loomcase.casework.Answer;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.casework.Shop;
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
}
