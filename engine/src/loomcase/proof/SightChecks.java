package loomcase.proof;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import loomcase.journal.Standing;
import loomcase.model.AccessStep;
import loomcase.model.Circuit;
import loomcase.model.Finding;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.proof.Proof.Check;
import loomcase.proof.Proof.Kind;
import loomcase.proof.Proof.State;

/** What eye and hand check: the work, the plugs that were apart, the wiggle, what was opened on the way. */
final class SightChecks {
    private static final String PRACTICE = "common practice, no source";
    private static final String MOVING = "moving and hot parts: keep hands, hair and leads clear of fans and belts";

    private final Circuit circuit;
    private final CaseLines lines;

    SightChecks(Circuit circuit, CaseLines lines) {
        this.circuit = circuit;
        this.lines = lines;
    }

    /** Looks and wiggles, and whatever else was found after the work. */
    List<Check> list(List<String> plugs) {
        List<Check> out = new ArrayList<>();
        for (Spot s : lines.spots())
            if (!plugs.contains(s.place().id()))
                out.add(look(
                        Kind.LOOK,
                        s.place(),
                        0,
                        "look at " + s.place() + ": the work is sound, sealed, guarded and clipped"));
        for (String plug : plugs) out.add(plug(plug));
        for (Spot s : lines.spots()) out.add(wiggle(s.place()));
        out.addAll(found(out));
        return out;
    }

    private Check plug(String plug) {
        boolean second = circuit.connectors()
                .get(plug)
                .shell()
                .map(x -> x.secondaryLock())
                .orElse(false);
        return look(
                Kind.PLUG,
                new PlaceId(PlaceId.Kind.CONNECTOR, plug),
                lines.lastApart().getOrDefault(plug, 0),
                "plug " + plug + " (" + circuit.connectors().get(plug).label() + ") home: no terminal back, pushed,"
                        + " clicked, tugged" + (second ? ", second lock closed" : ""));
    }

    /** @param from number of the line before which a look says nothing */
    private Check look(Kind kind, PlaceId place, int from, String words) {
        State state = State.MISSING;
        List<Integer> where = List.of();
        String found = "";
        for (Standing s : lines.after()) {
            if (s.n() <= from
                    || !(s.fact() instanceof Fact.Seen seen)
                    || !same(seen.spot().place(), place)) continue;
            state = seen.finding() == Finding.CLEAN ? State.PASSED : State.CONTRADICTED;
            where = List.of(s.n());
            found = seen.finding().word().replace('-', ' ');
        }
        return new Check(kind, words, Optional.empty(), PRACTICE, "", state, where, found);
    }

    /** The same place, of an inline pair either half. */
    private boolean same(PlaceId a, PlaceId b) {
        if (a.equals(b)) return true;
        return a.kind() == PlaceId.Kind.CONNECTOR
                && b.kind() == PlaceId.Kind.CONNECTOR
                && circuit.connectors().get(a.id()).mates().equals(b.id());
    }

    private Check wiggle(PlaceId place) {
        State state = State.MISSING;
        List<Integer> where = List.of();
        String found = "";
        for (Standing s : lines.after())
            if (s.fact() instanceof Fact.Moved m
                    && m.action() == Fact.Action.WIGGLE
                    && m.setup().powered()
                    && holds(m.spot().place(), place)) {
                state = m.response() ? State.CONTRADICTED : State.PASSED;
                where = List.of(s.n());
                found = m.response() ? "responded: " + m.what() : "steady";
            }
        return new Check(
                Kind.WIGGLE,
                "wiggle " + place + " for 2 minutes, key on, values and codes in view: nothing changes",
                Optional.empty(),
                PRACTICE,
                MOVING,
                state,
                where,
                found);
    }

    /** A wiggle at a plug moves its cavities. */
    private boolean holds(PlaceId moved, PlaceId place) {
        return same(moved, place)
                || moved.kind() == PlaceId.Kind.CONNECTOR
                        && place.kind() == PlaceId.Kind.CAVITY
                        && Names.connectorOf(place.id()).equals(moved.id());
    }

    /** Places where something was found or moved after the work that no check above is about; the last look counts. */
    private List<Check> found(List<Check> known) {
        Map<String, Check> out = new LinkedHashMap<>();
        for (Standing s : lines.after()) {
            if (known.stream().anyMatch(c -> c.lines().contains(s.n()))) continue;
            if (s.fact() instanceof Fact.Seen seen) {
                String key = "look " + seen.spot();
                if (seen.finding() == Finding.CLEAN) out.remove(key);
                else out.put(key, other(s, seen.finding().word().replace('-', ' ')));
            }
            if (s.fact() instanceof Fact.Moved m) {
                String key = m.action() + " " + m.spot();
                if (!m.response()) out.remove(key);
                else out.put(key, other(s, m.what()));
            }
        }
        // A look that was bad and later clean at a place checked above was already answered there.
        out.values().removeIf(c -> known.stream()
                .anyMatch(k -> k.state() == State.PASSED
                        && k.lines().stream().anyMatch(n -> n > c.lines().get(0))
                        && sameSpot(k, c)));
        return List.copyOf(out.values());
    }

    private boolean sameSpot(Check known, Check other) {
        return spot(known.lines().get(0)).equals(spot(other.lines().get(0)));
    }

    private Optional<PlaceId> spot(int line) {
        return lines.after().stream()
                .filter(s -> s.n() == line)
                .map(Standing::fact)
                .map(f -> f instanceof Fact.Seen x
                        ? x.spot().place()
                        : f instanceof Fact.Moved m ? m.spot().place() : new PlaceId(PlaceId.Kind.ENGINE, "none"))
                .findFirst();
    }

    private static Check other(Standing s, String found) {
        return new Check(
                Kind.FOUND,
                "nothing else is found: " + s.fact(),
                Optional.empty(),
                PRACTICE,
                "",
                State.CONTRADICTED,
                List.of(s.n()),
                found);
    }

    /** Everything opened on the way is closed again, the last opened first. */
    List<Check> closing() {
        Map<String, Optional<Integer>> closed = new LinkedHashMap<>();
        for (Standing s : lines.all()) {
            if (s.fact() instanceof Fact.OpenedAccess o) {
                closed.remove(o.step());
                closed.put(o.step(), Optional.empty());
            }
            if (s.fact() instanceof Fact.ClosedAccess c && closed.containsKey(c.step()))
                closed.put(c.step(), Optional.of(s.n()));
        }
        List<Check> out = new ArrayList<>();
        closed.forEach((id, line) -> out.add(0, close(circuit.access().get(id), line)));
        return out;
    }

    private static Check close(AccessStep step, Optional<Integer> line) {
        return new Check(
                Kind.CLOSE,
                "undo: " + step.label() + (step.after().isEmpty() ? "" : ": " + String.join("; ", step.after())),
                Optional.empty(),
                "access steps of the circuit file",
                step.caution(),
                line.isPresent() ? State.PASSED : State.MISSING,
                line.map(List::of).orElse(List.of()),
                line.isPresent() ? "closed" : "");
    }
}
