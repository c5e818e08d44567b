package loomcase.study;

import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import loomcase.faults.Hypothesis;
import loomcase.model.Circuit;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;

/**
 * How large a fault truly is. A hypothesis of 30 ohm stands for a range, and the engine knows few of them; the truth lies
 * anywhere about it.
 *
 * <p>A resistance in the way, a path and a drift are larger or smaller by 10^(decades·N(0,1)), each by itself: of a drift
 * what it moves, not the value. A break stays a break, what is dead stays dead; a true condition of the engine, and a
 * temperature that is reported falsely, keep the value of the circuit file.
 *
 * @param circuit healthy values
 * @param decades standard deviation of the common logarithm of a size; 0 gives every fault the very size of its hypothesis
 */
record Sizes(Circuit circuit, double decades) {
    /** Shares of the supply within which a signal that drifted stays: one that lies beyond is no reading any more. */
    private static final double LEAST_FRACTION = 0.08;

    private static final double MOST_FRACTION = 0.92;

    /** The edits of a fault at the size it truly has. */
    List<Edit> of(PlaceId place, List<Edit> edits, SplittableRandom random) {
        if (decades == 0 || place.kind() == PlaceId.Kind.ENGINE) return edits;
        return edits.stream()
                .map(e -> sized(e, Math.pow(10, decades * Numbers.normal(random))))
                .toList();
    }

    private Edit sized(Edit e, double factor) {
        if (e instanceof Edit.Series s && s.ohms() < Edit.OPEN_OHMS)
            return new Edit.Series(s.element(), Math.min(Edit.OPEN_OHMS / 10, s.ohms() * factor));
        if (e instanceof Edit.Bridge b) return new Edit.Bridge(b.pointA(), b.pointB(), b.ohms() * factor);
        if (!(e instanceof Edit.Value v)) return e;
        return switch (v.quantity()) {
            case OHMS -> new Edit.Value(v.device(), v.quantity(), v.value() * factor);
            case OHMS_FACTOR -> new Edit.Value(v.device(), v.quantity(), Math.pow(v.value(), factor));
            case FRACTION -> {
                double healthy = healthyFraction(v.device());
                double drifted = healthy + (v.value() - healthy) * factor;
                yield new Edit.Value(
                        v.device(), v.quantity(), Math.max(LEAST_FRACTION, Math.min(MOST_FRACTION, drifted)));
            }
            case CELSIUS, VOLTS, RESTING_VOLTS -> v;
        };
    }

    private double healthyFraction(String device) {
        Device.Nature nature = circuit.devices().get(device).nature();
        if (nature instanceof Device.Ratiometric r) return r.fraction().usual();
        if (nature instanceof Device.MotorWithPosition m)
            return m.position().fraction().usual();
        throw new IllegalStateException(device + " gives no share of its supply");
    }

    /** Whether a member of a suspect is the fault, whatever its size. */
    boolean same(Ranking.Member member, Hypothesis truth) {
        if (member.id().equals(truth.id())) return true;
        return truth.cause() instanceof Hypothesis.Fixed f
                && member.subject().family().equals(truth.family())
                && member.subject().places().equals(truth.places())
                && alike(member.edits(), f.edits());
    }

    private boolean alike(List<Edit> a, List<Edit> b) {
        if (a.size() != b.size()) return false;
        for (int i = 0; i < a.size(); i++) if (!kind(a.get(i)).equals(kind(b.get(i)))) return false;
        return true;
    }

    /** What an edit does, without how much: of a drift the side it goes to. */
    private Object kind(Edit e) {
        if (e instanceof Edit.Series s) return List.of(s.element(), s.ohms() < Edit.OPEN_OHMS);
        if (e instanceof Edit.Bridge b) return List.of(b.pointA(), b.pointB());
        if (!(e instanceof Edit.Value v)) return e;
        return switch (v.quantity()) {
            case OHMS_FACTOR -> Map.entry(v.device(), v.value() > 1);
            case FRACTION -> Map.entry(v.device(), v.value() > healthyFraction(v.device()));
            case OHMS, CELSIUS, VOLTS, RESTING_VOLTS -> e;
        };
    }
}
