package loomcase.meter;

import java.util.ArrayList;
import java.util.List;
import loomcase.model.Circuit;
import loomcase.model.Edit;

/** What is left of a fault once plugs are taken apart. */
final class Faults {
    private Faults() {}

    /** The edits without paths that led across a plug which is now apart, such as swapped terminals; a new list. */
    static List<Edit> under(Circuit circuit, Setup setup, List<Edit> edits) {
        List<Edit> out = new ArrayList<>(edits.size() + 4);
        for (Edit e : edits) {
            boolean across = e instanceof Edit.Bridge b
                    && !setup.unplugged().isEmpty()
                    && setup.parts(circuit, b.pointA(), b.pointB());
            if (!across) out.add(e);
        }
        return out;
    }
}
