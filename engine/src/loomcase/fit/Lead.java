package loomcase.fit;

import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.model.Conductor;
import loomcase.model.Wire;

/**
 * What comes to one cavity: its terminal with the wire on it.
 *
 * @param cavity name of the cavity
 * @param circuit what it carries, in words; empty for not known
 * @param serves everything that its net ends at, as words that are the same in both harnesses; empty for not known
 * @param wire id of its wire; empty for not known
 * @param size of its wire
 * @param insulation class of its wire, empty for not known
 * @param colour of its wire, empty for not known
 * @param givenMetres length of its wire where it is stated
 * @param lay how its wire is laid; empty for not known
 */
record Lead(
        String cavity,
        String circuit,
        Set<String> serves,
        String wire,
        Optional<Conductor> size,
        String insulation,
        String colour,
        OptionalDouble givenMetres,
        Optional<Wire.Lay> lay) {
    Lead {
        serves = Collections.unmodifiableSet(new LinkedHashSet<>(serves));
    }

    /** How a technician tells it from its neighbours: size, colour, what it carries. */
    String words() {
        StringBuilder out = new StringBuilder();
        size.ifPresent(s -> out.append(s.name()).append(' '));
        if (!colour.isEmpty()) out.append(colour).append(' ');
        String what = circuit.isEmpty() ? wire.isEmpty() ? "circuit not known" : "wire " + wire : circuit;
        return out.append(out.length() == 0 ? what : "(" + what + ")").toString();
    }
}
