package loomcase.faults;

import java.util.List;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Edit;
import loomcase.model.Names;

/**
 * What a slip with terminals does to the circuit. A point {@code C/1} stands for the terminal that belongs in that cavity,
 * wherever it sits.
 */
public final class TerminalSlips {
    /** Resistance in ohms of a good contact in the wrong cavity (2 to 6 mohm, common practice, no source). */
    private static final double CONTACT_OHMS = 0.005;

    private TerminalSlips() {}

    /** The terminal of a cavity is not there, or does not touch. */
    public static Edit open(String cavity) {
        return new Edit.Series(Names.contact(cavity), Edit.OPEN_OHMS);
    }

    /** The terminals of two cavities of one plug sit in each other's place; either may be an empty cavity. */
    public static List<Edit> swapped(Circuit circuit, String a, String b) {
        return List.of(
                open(a),
                open(b),
                new Edit.Bridge(a, mate(circuit, b), CONTACT_OHMS),
                new Edit.Bridge(b, mate(circuit, a), CONTACT_OHMS));
    }

    /** The point that a cavity plugs onto. */
    private static String mate(Circuit circuit, String cavity) {
        Connector connector = circuit.connectors().get(Names.connectorOf(cavity));
        boolean inline = circuit.connectors().containsKey(connector.mates());
        return inline ? connector.mates() + "/" + Names.cavityOf(cavity) : Names.mating(cavity);
    }
}
