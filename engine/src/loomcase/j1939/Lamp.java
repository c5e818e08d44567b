package loomcase.j1939;

import java.util.Objects;

/**
 * One lamp of a trouble message: whether the sender wants it lit, and how it flashes.
 *
 * <p>Two bits each. Source of the values: test data and lamp table of the general-purpose libraries named in the tests.
 */
public record Lamp(State state, Flash flash) {
    /** In the order of the two bits: 00, 01, 10, 11. */
    public enum State {
        OFF,
        ON,
        ERROR,
        NOT_AVAILABLE
    }

    /** In the order of the two bits: 00 (once a second), 01 (twice a second or faster), 10, 11. */
    public enum Flash {
        SLOW,
        FAST,
        RESERVED,
        NONE
    }

    /** Off and not flashing. */
    public static final Lamp OFF = new Lamp(State.OFF, Flash.NONE);
    /** Lit and not flashing. */
    public static final Lamp ON = new Lamp(State.ON, Flash.NONE);

    private static final State[] STATES = State.values();
    private static final Flash[] FLASHES = Flash.values();

    public Lamp {
        Objects.requireNonNull(state, "state");
        Objects.requireNonNull(flash, "flash");
    }

    /** Whether the sender wants this lamp lit, steady or flashing. */
    public boolean lit() {
        return state == State.ON;
    }

    static Lamp ofBits(int stateByte, int flashByte, int shift) {
        return new Lamp(STATES[stateByte >>> shift & 3], FLASHES[flashByte >>> shift & 3]);
    }
}
