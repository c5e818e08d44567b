package loomcase.j1939;

import java.util.Objects;

/**
 * The four lamps of a trouble message.
 *
 * <p>Byte 1 holds the states, byte 2 the flashing, two bits a lamp: protect in bits 2..1, amber warning in 4..3, red stop
 * in 6..5, malfunction indicator in 8..7.
 */
public record Lamps(Lamp protect, Lamp amberWarning, Lamp redStop, Lamp malfunction) {
    /** All off. */
    public static final Lamps OFF = new Lamps(Lamp.OFF, Lamp.OFF, Lamp.OFF, Lamp.OFF);

    public Lamps {
        Objects.requireNonNull(protect, "protect");
        Objects.requireNonNull(amberWarning, "amberWarning");
        Objects.requireNonNull(redStop, "redStop");
        Objects.requireNonNull(malfunction, "malfunction");
    }

    /** From the two bytes as sent. */
    public static Lamps ofBytes(int stateByte, int flashByte) {
        return new Lamps(
                Lamp.ofBits(stateByte, flashByte, 0),
                Lamp.ofBits(stateByte, flashByte, 2),
                Lamp.ofBits(stateByte, flashByte, 4),
                Lamp.ofBits(stateByte, flashByte, 6));
    }

    /** Byte 1 as sent, 0..255. */
    public int stateByte() {
        return protect.state().ordinal()
                | amberWarning.state().ordinal() << 2
                | redStop.state().ordinal() << 4
                | malfunction.state().ordinal() << 6;
    }

    /** Byte 2 as sent, 0..255. */
    public int flashByte() {
        return protect.flash().ordinal()
                | amberWarning.flash().ordinal() << 2
                | redStop.flash().ordinal() << 4
                | malfunction.flash().ordinal() << 6;
    }
}
