package loomcase.claim;

import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import loomcase.journal.Fact;
import loomcase.journal.Setup;
import loomcase.meter.Test;

/**
 * Which lines of a case only make a test again. A test is one of its own again after work; a reading or a watch also after
 * a place was moved, warmed or wetted, or parts changed places, and with wires at another temperature. Two findings of one
 * look are one test.
 */
final class Repeats {
    private final Set<String> measured = new HashSet<>();
    private final Set<String> handled = new HashSet<>();

    /** Takes the next line; true when it is a test that only repeats an earlier one. */
    boolean takes(Fact fact, Optional<Test> test) {
        boolean handles = fact instanceof Fact.Moved || fact instanceof Fact.Swapped;
        if (handles || fact instanceof Fact.Work) measured.clear();
        if (fact instanceof Fact.Work) handled.clear();
        if (test.isEmpty()) return false;
        boolean meter = fact instanceof Fact.Reading || fact instanceof Fact.Watched || fact instanceof Fact.Gauged;
        return !(meter ? measured : handled).add(question(fact, test.get()));
    }

    private static String question(Fact fact, Test test) {
        if (fact instanceof Fact.Moved m) return m.action() + " " + test.question();
        if (fact instanceof Fact.Reading r) return test.question() + " " + warmth(r.setup());
        return test.question();
    }

    private static String warmth(Setup setup) {
        return setup.wireCelsius().isPresent() ? Math.round(setup.wireCelsius().getAsDouble()) + " °C" : "";
    }
}
