package loomcase.proof;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.journal.Fact;
import loomcase.journal.Standing;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.proof.Proof.Check;
import loomcase.proof.Proof.Kind;
import loomcase.proof.Proof.Limit;
import loomcase.proof.Proof.State;

/**
 * Continuity and isolation of the wires worked at.
 *
 * <p>Limit of a continuity: {@code 1.28 · Σ length · ohms per metre(size, temperature) + 0.2 ohm}. The copper is that of
 * {@link loomcase.model.Conductor} (IEC 60028, ASTM B258); 1.28 covers stranding, lay and tin, the most that the tables of
 * AC 43.13-1B, IEC 60228 and ISO 6722-1 give over solid copper; 0.2 ohm is what two probes leave after lead zero (judgement).
 * There is no allowance for a plug contact, since the plugs are apart. Isolation is 1 Mohm or more (common practice, no
 * source). A reading counts only with the key off and the plugs apart that it needs.
 */
final class MeterChecks {
    /** Most that stranded wire measures over solid copper of its size. */
    static final double STRANDED = 1.28;

    /** Left over of two probes after lead zero, ohms (judgement). */
    static final double PROBES_OHMS = 0.2;

    private static final double ISOLATION_OHMS = 1e6;

    /** From so many plugs on one net on its isolation is not asked for (judgement). */
    private static final int TOO_MANY_PLUGS = 9;

    private static final double CELSIUS = 20;
    private static final String DISCHARGE =
            "key off, control unit powered down, battery isolated; mating test lead, no probe pushed into a cavity";
    private static final String WIRE = "copper by IEC 60028, ASTM B258; 1.28 for stranding (AC 43.13-1B, IEC 60228,"
            + " ISO 6722-1); 0.2 ohm for probes (judgement)";
    private static final String ISOLATED = "1 Mohm: common practice, no source";

    private final Circuit circuit;
    private final Layout layout;
    private final Touched touched;
    private final List<Standing> after;

    MeterChecks(Circuit circuit, Layout layout, Touched touched, List<Standing> after) {
        this.circuit = circuit;
        this.layout = layout;
        this.touched = touched;
        this.after = after;
    }

    /** The checks; wires that they leave out are noted. */
    List<Check> list(List<String> notes) {
        List<Stretch> stretches = touched.stretches(notes);
        List<Check> out = new ArrayList<>();
        stretches.forEach(s -> out.add(continuity(s)));
        Set<String> seen = new LinkedHashSet<>();
        for (Stretch s : stretches) {
            if (seen.stream().anyMatch(p -> touched.same(p, s.from()))) continue;
            seen.add(s.from());
            isolation(s.from(), notes).ifPresent(out::add);
        }
        return out;
    }

    static double limit(double copperOhms) {
        return STRANDED * copperOhms + PROBES_OHMS;
    }

    private Check continuity(Stretch s) {
        List<String> apart = plugs(List.of(s.from(), s.to()));
        double about = s.ohms(layout, CELSIUS);
        Limit limit = new Limit(s.from(), s.to(), apart, Optional.of(about), limit(about), true);
        String words = String.format(
                Locale.ROOT,
                "ohms from %s to %s%s: at most %.2f ohm at 20 °C (copper %.3f ohm)",
                s.from(),
                s.to(),
                apart(apart),
                limit.limitOhms(),
                about);
        return judged(Kind.CONTINUITY, words, limit, WIRE, r -> r.test() == Fact.Test.OHMS && joins(r, s), r -> {
            double celsius = r.setup().wireCelsius().orElse(CELSIUS);
            OptionalDouble value = r.shown().value();
            return value.isPresent() && value.getAsDouble() <= limit(s.ohms(layout, celsius));
        });
    }

    private static boolean joins(Fact.Reading r, Stretch s) {
        return r.a().equals(s.from()) && r.b().equals(s.to()) || r.a().equals(s.to()) && r.b().equals(s.from());
    }

    private Optional<Check> isolation(String point, List<String> notes) {
        if (touched.grounded(point)) return Optional.empty();
        List<String> apart = touched.ends(point);
        if (apart.size() >= TOO_MANY_PLUGS) {
            notes.add("isolation at " + point + " is not asked for: " + apart.size()
                    + " plugs would have to come apart; its codes and its fuse stand for it");
            return Optional.empty();
        }
        Limit limit = new Limit(point, Names.CHASSIS, apart, Optional.empty(), ISOLATION_OHMS, false);
        String words = "isolation of " + point + " from the chassis" + apart(apart) + ": 1 Mohm or more";
        return Optional.of(judged(
                Kind.ISOLATION,
                words,
                limit,
                ISOLATED,
                r -> r.test() == Fact.Test.ISOLATION
                        && (touched.same(r.a(), point) && grounded(r.b())
                                || touched.same(r.b(), point) && grounded(r.a())),
                r -> r.shown().value().isEmpty() || r.shown().value().getAsDouble() >= ISOLATION_OHMS));
    }

    private boolean grounded(String point) {
        return point.equals(Names.CHASSIS) || touched.grounded(point);
    }

    private List<String> plugs(List<String> points) {
        return points.stream()
                .map(Names::connectorOf)
                .filter(circuit.connectors()::containsKey)
                .distinct()
                .toList();
    }

    private static String apart(List<String> plugs) {
        return plugs.isEmpty() ? "" : ", " + String.join(", ", plugs) + " apart";
    }

    private interface Asks {
        boolean of(Fact.Reading r);
    }

    /** The last reading that counts decides: an earlier one may be what was put right. */
    private Check judged(Kind kind, String words, Limit limit, String source, Asks fits, Asks holds) {
        State state = State.MISSING;
        List<Integer> lines = List.of();
        String found = "";
        for (Standing s : after) {
            if (!(s.fact() instanceof Fact.Reading r) || !fits.of(r)) continue;
            Optional<String> unfit = unfit(r, limit);
            if (unfit.isPresent() && state != State.MISSING) continue;
            state = unfit.isPresent() ? State.MISSING : holds.of(r) ? State.PASSED : State.CONTRADICTED;
            lines = List.of(s.n());
            found = r.shown() + unfit.map(u -> ", does not count: " + u).orElse("");
        }
        return new Check(kind, words, Optional.of(limit), source, DISCHARGE, state, lines, found);
    }

    /** Why a reading says nothing about the wire alone, if so. */
    private Optional<String> unfit(Fact.Reading r, Limit limit) {
        if (r.setup().powered()) return Optional.of("taken with the key on");
        if (!r.setup().jumpers().isEmpty()) return Optional.of("taken with a jumper on");
        List<String> mated = limit.unplugged().stream()
                .filter(p -> !r.setup().unplugged().contains(p)
                        && !r.setup()
                                .unplugged()
                                .contains(circuit.connectors().get(p).mates()))
                .toList();
        return mated.isEmpty()
                ? Optional.empty()
                : Optional.of("taken with " + String.join(", ", mated) + " plugged in");
    }
}
