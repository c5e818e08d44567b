package loomcase.journal;

import java.util.ArrayDeque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.ControlUnit;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.model.Wire;

/**
 * Whether a reading is in the right unit, possible and harmless, and whether it is odd enough to be looked at again.
 *
 * <p>The limits are common practice, no source: 150 V is above any coil kick that a meter averages, 1 Gohm is above any
 * hand meter; 16 V is what a 12 V alternator never reaches for long, 32 V the same for 24 V; a regulated rail is within a
 * tenth.
 */
final class ReadingCheck {
    /** Largest voltage that is believed, either sign. */
    static final double MOST_VOLTS = 150;

    /** From here a hand meter shows over range. */
    static final double MOST_OHMS = 1e9;

    private static final double RAIL_MARGIN = 1.1;
    private static final double TWENTY_FOUR_VOLTS_FROM = 18;

    private final Circuit circuit;
    private final Map<String, Double> railVolts = new HashMap<>();
    private final Set<String> reference = new HashSet<>();
    private final double mostBatteryVolts;

    ReadingCheck(Circuit circuit) {
        this.circuit = circuit;
        double most = circuit.operatingPoints().values().stream()
                .mapToDouble(OperatingPoint::batteryVolts)
                .max()
                .orElse(0);
        mostBatteryVolts = most < TWENTY_FOUR_VOLTS_FROM ? 16 : 32;
        reference.add(Names.CHASSIS);
        for (String ground : circuit.grounds().keySet()) reference.addAll(net(ground));
        for (ControlUnit.Pin pin : circuit.controlUnit().pins().values()) {
            if (pin.function() instanceof ControlUnit.Supply s)
                net(pin.cavity())
                        .forEach(p -> railVolts.put(
                                p, circuit.controlUnit().rails().get(s.rail()).volts()));
            if (pin.function() instanceof ControlUnit.Return || pin.function() instanceof ControlUnit.GroundPin)
                reference.addAll(net(pin.cavity()));
        }
    }

    /** Points joined to a point by wires, splices and plugs between looms alone. */
    private Set<String> net(String start) {
        Set<String> seen = new HashSet<>(Set.of(start));
        ArrayDeque<String> left = new ArrayDeque<>(seen);
        while (!left.isEmpty()) {
            String point = left.remove();
            Set<String> next = new HashSet<>();
            for (Wire w : circuit.wires().values()) {
                if (w.from().equals(point)) next.add(w.to());
                if (w.to().equals(point)) next.add(w.from());
            }
            inline(point).ifPresent(next::add);
            for (String n : next) if (seen.add(n)) left.add(n);
        }
        return seen;
    }

    /** The cavity that a cavity of a plug between looms mates with. */
    private Optional<String> inline(String point) {
        return Optional.ofNullable(circuit.connectors().get(Names.connectorOf(point)))
                .filter(c -> circuit.connectors().containsKey(c.mates()))
                .map(c -> c.mates() + "/" + Names.cavityOf(point));
    }

    /** Why a reading cannot be, if it cannot. */
    Optional<String> wrong(Fact.Reading r) {
        if (r.shown() instanceof Shown.Number n
                && n.unit().quantity() != r.test().quantity())
            return Optional.of(named(r.test()) + " test gives "
                    + r.test().quantity().word() + ", the reading " + n + " is in "
                    + n.unit().quantity().word());
        if (r.test().quantity() == Shown.Quantity.OHMS) return wrongOhms(r);
        if (r.shown() instanceof Shown.OverRange)
            return Optional.of(named(r.test()) + " test gives volts; only ohms can be open");
        double volts = r.shown().value().orElseThrow();
        return Math.abs(volts) > MOST_VOLTS
                ? Optional.of(r.shown() + " is not within -150 V to 150 V")
                : Optional.empty();
    }

    private static String named(Fact.Test test) {
        return (test == Fact.Test.OHMS || test == Fact.Test.ISOLATION ? "an " : "a ") + test.word();
    }

    private Optional<String> wrongOhms(Fact.Reading r) {
        if (r.setup().powered())
            return Optional.of("ohms on a powered circuit harm the meter and mean nothing, and the setup is "
                    + r.setup().operatingPoint().orElseThrow() + "; key off first, then record it at "
                    + Setup.KEY_OFF);
        if (r.shown() instanceof Shown.OverRange) return Optional.empty();
        double ohms = r.shown().value().orElseThrow();
        double zero = r.meter().leadZeroOhms().orElse(0);
        if (ohms >= MOST_OHMS)
            return Optional.of(r.shown() + " is more than a meter can measure; if it showed OL, record it as open");
        if (ohms < 0 && zero == 0)
            return Optional.of(r.shown() + " is below 0; ohms below 0 come only from a lead zero, give that with it");
        if (ohms < -zero)
            return Optional.of(
                    r.shown() + " is further below 0 than the lead zero of " + Shown.plain(zero) + " ohm allows");
        return Optional.empty();
    }

    /** What is odd about a possible reading, if anything. */
    Optional<String> odd(Fact.Reading r) {
        if (r.shown().value().isEmpty()) return Optional.empty();
        double value = r.shown().value().getAsDouble();
        if (r.test().quantity() == Shown.Quantity.OHMS)
            return value < 0
                    ? Optional.of(r.shown() + " is below 0 after the lead zero; zero the leads again")
                    : Optional.empty();
        if (Math.abs(value) > mostBatteryVolts)
            return Optional.of(r.shown() + " is above " + Shown.plain(mostBatteryVolts) + " V, more than a "
                    + (mostBatteryVolts == 16 ? 12 : 24) + " V system gives");
        if (r.test() == Fact.Test.DROP)
            return r.setup().powered()
                    ? Optional.empty()
                    : Optional.of("a drop is read while current flows, and the key is off");
        return oddRail(r, r.a(), r.b(), value).or(() -> oddRail(r, r.b(), r.a(), -value));
    }

    private Optional<String> oddRail(Fact.Reading r, String point, String other, double volts) {
        Double rail = railVolts.get(bare(point));
        if (rail == null || !reference.contains(bare(other))) return Optional.empty();
        if (volts > rail * RAIL_MARGIN)
            return Optional.of(
                    r.shown() + " is above the " + Shown.plain(rail) + " V supply that " + point + " is wired to");
        return Optional.empty();
    }

    /** A point without the mark of its far side. */
    private static String bare(String point) {
        return point.endsWith("~") ? point.substring(0, point.length() - 1) : point;
    }
}
