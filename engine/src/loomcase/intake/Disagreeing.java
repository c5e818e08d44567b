package loomcase.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.meter.Outcome;
import loomcase.rank.Evidence;

/**
 * Tests made twice in the same way that gave what cannot both be of one lasting fault. Both are weighed; somebody should know,
 * for a slip with the meter does it as easily as a fault that comes and goes.
 *
 * <p>Readings disagree beyond a fifth of the larger and 0.2 V or 1 ohm; above 100 kohm all are taken as the same (judgement:
 * more than tolerance, temperature and contact make between two readings).
 */
final class Disagreeing {
    private static final double SHARE = 0.2;
    private static final double VOLTS = 0.2;
    private static final double OHMS = 1;
    private static final double INSULATED_OHMS = 1e5;

    private Disagreeing() {}

    /** One sentence for each test that disagrees with itself, in the order in which they were made first. */
    static List<String> notes(List<Evidence.Tested> tested) {
        Map<String, List<Evidence.Tested>> same = new LinkedHashMap<>();
        for (Evidence.Tested t : tested)
            same.computeIfAbsent(t.test().id(), id -> new ArrayList<>()).add(t);
        List<String> out = new ArrayList<>();
        for (List<Evidence.Tested> all : same.values()) {
            Evidence.Tested last = all.get(all.size() - 1);
            all.stream()
                    .filter(t -> disagree(t.outcome(), last.outcome()))
                    .findFirst()
                    .ifPresent(
                            t -> out.add(t.test().words() + ": " + t.outcome().words() + ", and later "
                                    + last.outcome().words()
                                    + "; a fault that comes and goes does that, and so does a slip with the meter: do it again,"
                                    + " and once more while the loom is moved"));
        }
        return out;
    }

    private static boolean disagree(Outcome a, Outcome b) {
        if (a instanceof Outcome.CodesActive && b instanceof Outcome.CodesActive) return !a.equals(b);
        if (a instanceof Outcome.OverRange) return b instanceof Outcome.Reading r && !insulated(r);
        if (!(a instanceof Outcome.Reading r)) return false;
        if (b instanceof Outcome.OverRange) return !insulated(r);
        return b instanceof Outcome.Reading other && disagree(r, other);
    }

    private static boolean disagree(Outcome.Reading a, Outcome.Reading b) {
        if (insulated(a) && insulated(b)) return false;
        double least = a.unit() == Outcome.Unit.OHMS ? OHMS : VOLTS;
        double larger = Math.max(Math.abs(a.value()), Math.abs(b.value()));
        return Math.abs(a.value() - b.value()) > least + SHARE * larger;
    }

    private static boolean insulated(Outcome.Reading r) {
        return r.unit() == Outcome.Unit.OHMS && r.value() >= INSULATED_OHMS;
    }
}
