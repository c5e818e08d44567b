package loomcase.drill;

import loomcase.meter.Outcome;
import loomcase.meter.Test;

/** Words for what was noticed, by the kind of test. */
final class Signs {
    private Signs() {}

    static Outcome.Sign of(Test test, boolean yes) {
        if (test instanceof Test.Wiggle) return yes ? Outcome.Sign.RESPONDS : Outcome.Sign.STEADY;
        if (test instanceof Test.SwapWithNeighbour) return yes ? Outcome.Sign.FOLLOWS : Outcome.Sign.STAYS;
        throw new IllegalArgumentException("nothing is noticed in " + test);
    }
}
