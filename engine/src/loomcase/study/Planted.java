package loomcase.study;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.faults.Hypothesis;

/**
 * One case of a study: what is truly wrong, and in what world.
 *
 * @param kind how it was drawn
 * @param truth what is wrong, one hypothesis or two
 * @param faults the same as it is in the engine, with what a common cause hit
 * @param off by which factor each device's healthy value is off, by device id
 * @param present false when a fault that comes and goes is away while codes are read
 */
record Planted(
        Kind kind,
        List<Hypothesis> truth,
        List<loomcase.drill.Planted> faults,
        Map<String, Double> off,
        boolean present) {
    /** How the truth of a case is drawn. */
    enum Kind {
        /** One lasting fault, as often as its prior says. */
        SINGLE("single", "single faults, from the priors"),
        /** One lasting fault, every place alike: against the priors. */
        UNIFORM("every-place", "single faults, every place alike"),
        /** Two lasting faults, each as often as its prior says. */
        DOUBLE("two", "two faults at once"),
        /** A rub point, crushed clip or plug not home that hits several wires. */
        COMMON("common", "common causes"),
        /** A true condition of the engine. */
        ENGINE("engine", "true engine conditions"),
        /** A fault that comes and goes. */
        INTERMITTENT("come-and-go", "faults that come and go"),
        /**
         * Any of these as often as its prior says, and now and then a second that is there as well and shows: what the
         * engine takes the world to be, so the one kind for which its shares ought to be true.
         */
        MIXED("all", "all kinds, from the priors");

        final String id;
        final String words;

        Kind(String id, String words) {
            this.id = id;
            this.words = words;
        }
    }

    Planted {
        truth = List.copyOf(truth);
        faults = List.copyOf(faults);
        off = Collections.unmodifiableMap(new LinkedHashMap<>(off));
    }

    /** True when some fault comes and goes. */
    boolean comesAndGoes() {
        return truth.stream().anyMatch(Hypothesis::comesAndGoes);
    }
}
