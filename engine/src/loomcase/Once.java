package loomcase;

import java.util.function.Supplier;

/** A value made on first use and kept; made once even when several threads ask. */
public final class Once<T> {
    private final Supplier<T> maker;
    private T made;

    /** @param maker makes the value, not null; called again only if it throws */
    public Once(Supplier<T> maker) {
        this.maker = maker;
    }

    /** The value. */
    public synchronized T get() {
        if (made == null) made = maker.get();
        return made;
    }
}
