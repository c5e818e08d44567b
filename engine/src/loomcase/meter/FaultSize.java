package loomcase.meter;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import loomcase.meter.NumericPrediction.Value;
import loomcase.model.Edit;

/**
 * How far a reading is off because a fault has another size than its hypothesis says: a contact of 1 kohm stands for
 * contacts from some hundred ohms to some thousand.
 *
 * <p>A resistance is predicted once more, larger by the share s that sizes differ by, a short by a share of its own; what
 * that moves the reading is its standard deviation. So a short whose reading hangs on its size but little is not taken for
 * one that may read anything, and of two faults only what the size of one moves counts. A temperature or a signal counts for
 * s times all that it moves, a battery's voltage for what being half charged makes of it.
 */
final class FaultSize {
    private static final double LEAST_OHMS = 0.01;
    private static final double MOST_OHMS = 1e7;
    private static final double LEAST_FACTOR = 0.01;

    /** By how much a half charged battery is above an empty one (US Army TM 5-3805-262-20: 12.2 and 11.7 V). */
    private static final double CHARGE = 12.2 / 11.7 - 1;

    private final double share;
    private final double ofShort;

    /**
     * @param share s, standard deviation of a size as a share of it
     * @param ofShort the same of a short: metal on metal reads nothing, a strand that just touches some ohms
     */
    FaultSize(double share, double ofShort) {
        this.share = share;
        this.ofShort = ofShort;
    }

    /**
     * The reading under some edits with the spread that their sizes give.
     *
     * @param value the reading under any edits, without
     */
    Value widened(List<Edit> edits, Function<List<Edit>, Value> value) {
        Value here = value.apply(edits);
        if (Double.isInfinite(here.mean())) return here;
        List<Edit> larger = new ArrayList<>();
        List<Edit> others = new ArrayList<>();
        for (Edit e : edits) {
            larger.add(larger(e));
            if (!isState(e)) others.add(e);
        }
        double spread = here.spread();
        if (!larger.equals(edits)) spread = Math.hypot(spread, moved(here, value.apply(larger)));
        if (others.size() < edits.size()) spread = Math.hypot(spread, share * moved(here, value.apply(others)));
        return new Value(here.mean(), spread);
    }

    /** Volts or ohms between two readings; one that is over range says nothing of how far the other may be off but all of it. */
    private static double moved(Value a, Value b) {
        return Double.isInfinite(b.mean()) ? Math.abs(a.mean()) : Math.abs(a.mean() - b.mean());
    }

    /** The edit with its resistance larger by the share, or as it is where it has none that is one of a range. */
    private Edit larger(Edit e) {
        if (e instanceof Edit.Series s && s.ohms() > LEAST_OHMS && s.ohms() < MOST_OHMS)
            return new Edit.Series(s.element(), s.ohms() * (1 + share));
        if (e instanceof Edit.Bridge b) return new Edit.Bridge(b.pointA(), b.pointB(), largerPath(b.ohms()));
        if (e instanceof Edit.Value v && v.quantity() == Edit.Quantity.OHMS)
            return new Edit.Value(v.device(), v.quantity(), largerPath(v.value()));
        if (e instanceof Edit.Value v
                && v.quantity() == Edit.Quantity.OHMS_FACTOR
                && v.value() > LEAST_FACTOR
                && v.value() < 1 / LEAST_FACTOR)
            return new Edit.Value(v.device(), v.quantity(), v.value() * (1 + share));
        if (e instanceof Edit.Value v && isSupply(v))
            return new Edit.Value(v.device(), v.quantity(), v.value() * (1 + CHARGE));
        return e;
    }

    private static boolean isSupply(Edit.Value v) {
        return v.quantity() == Edit.Quantity.VOLTS || v.quantity() == Edit.Quantity.RESTING_VOLTS;
    }

    /** A path where none should be: a short or a leak. */
    private double largerPath(double ohms) {
        return ohms >= MOST_OHMS ? ohms : ohms * (1 + (ohms > Edit.SHORT_OHMS ? share : ofShort));
    }

    private static boolean isState(Edit e) {
        return e instanceof Edit.Value v
                && (v.quantity() == Edit.Quantity.CELSIUS || v.quantity() == Edit.Quantity.FRACTION);
    }
}
