package loomcase.intake;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import loomcase.model.Circuit;
import loomcase.model.PlaceId;
import loomcase.model.Plugs;

/** Which plugs work has touched, as a case tells it. */
final class Worked {
    private Worked() {}

    /**
     * Plugs apart before these codes were read, but after work began, and whether terminals were moved in them.
     *
     * <p>Without work nothing counts: plugs taken apart for a test alone are not evidence of a slip. Terminals count as moved
     * where a cavity, a wire or a plug was repaired or replaced; a part that was replaced or a plug that was reseated or
     * cleaned was only apart.
     */
    static Map<String, Boolean> before(Circuit circuit, List<Fact> facts, Fact.Codes codes) {
        Map<String, Boolean> out = new TreeMap<>();
        boolean began = false;
        for (Fact f : facts) {
            if (f == codes) break;
            if (f instanceof Fact.Work w && w.spot().isPresent()) {
                began = true;
                boolean moved = w.deed() == Fact.Deed.REPAIRED || w.deed() == Fact.Deed.REPLACED;
                Plugs.at(circuit, w.spot().get().place())
                        .forEach(p -> out.merge(p, moved && terminals(w.spot().get()), Boolean::logicalOr));
            }
            if (began && f instanceof Fact.Reading r)
                r.setup().unplugged().forEach(p -> out.merge(p, false, Boolean::logicalOr));
            if (began && f instanceof Fact.Watched x)
                x.setup().unplugged().forEach(p -> out.merge(p, false, Boolean::logicalOr));
        }
        return out;
    }

    private static boolean terminals(Spot spot) {
        PlaceId.Kind kind = spot.place().kind();
        return kind == PlaceId.Kind.CAVITY || kind == PlaceId.Kind.CONNECTOR || kind == PlaceId.Kind.WIRE;
    }
}
