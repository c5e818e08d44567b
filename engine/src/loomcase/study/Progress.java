package loomcase.study;

import java.util.function.DoubleConsumer;

/** Adds up the share of a study that is done, told by several threads. */
final class Progress {
    /** A case worked through in every way takes about as long as this many rankings. */
    private static final double THROUGH = 20;

    private final DoubleConsumer listener;
    private final double all;
    private double done;

    Progress(int kinds, Study.Size size, DoubleConsumer listener) {
        this.listener = listener;
        this.all = kinds * (size.ranked() + THROUGH * size.worked());
    }

    synchronized void add(boolean through) {
        done += through ? 1 + THROUGH : 1;
        listener.accept(Math.min(1, done / all));
    }
}
