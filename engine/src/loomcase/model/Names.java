package loomcase.model;

/**
 * How electrical points and elements are named, so that every stage means the same one.
 *
 * <ul>
 *   <li>point {@code C/1}: harness side of cavity 1 of connector C; a splice, a ground stud by its id; {@code F/in},
 *       {@code F/out} of a fuse;
 *   <li>point {@code C/1~}: what the cavity plugs onto, when that is a device terminal or control-unit pin;
 *   <li>point {@code W@a}, {@code W@b}: the two ends of wire W where it enters a splice;
 *   <li>element {@code wire:W}, {@code contact:C/1}, {@code leg:S/W} (wire W into splice S), {@code ground:G},
 *       {@code fuse:F}, {@code device:D/part}.
 * </ul>
 */
public final class Names {
    /** The reference point: engine block, frame and battery negative. */
    public static final String CHASSIS = "chassis";

    private Names() {}

    /** Element of a wire. */
    public static String wire(String wire) {
        return "wire:" + wire;
    }

    /** Element of the contact between a cavity and what it mates with. */
    public static String contact(String cavity) {
        return "contact:" + cavity;
    }

    /** Element where a wire enters a splice. */
    public static String leg(String splice, String wire) {
        return "leg:" + splice + "/" + wire;
    }

    /** Element of a ground stud. */
    public static String ground(String ground) {
        return "ground:" + ground;
    }

    /** Element of a fuse. */
    public static String fuse(String fuse) {
        return "fuse:" + fuse;
    }

    /** Element inside a device. */
    public static String device(String device, String part) {
        return "device:" + device + "/" + part;
    }

    /** Point on the far side of a cavity: device terminal or control-unit pin. */
    public static String mating(String cavity) {
        return cavity + "~";
    }

    /** Point at a wire's end inside a splice. */
    public static String end(String wire, boolean atFrom) {
        return wire + (atFrom ? "@a" : "@b");
    }

    /** Point inside the control unit: {@code ground}, {@code power} or a rail id. */
    public static String inside(String controlUnit, String what) {
        return controlUnit + "." + what;
    }

    /** The connector part of {@code CONNECTOR/CAVITY}. */
    public static String connectorOf(String cavity) {
        int slash = cavity.indexOf('/');
        return slash < 0 ? cavity : cavity.substring(0, slash);
    }

    /** The cavity part of {@code CONNECTOR/CAVITY}. */
    public static String cavityOf(String cavity) {
        return cavity.substring(cavity.indexOf('/') + 1);
    }
}
