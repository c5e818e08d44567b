package loomcase.proof;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.model.Access;
import loomcase.model.Circuit;
import loomcase.model.Conductor;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/**
 * What a meter can reach of a wire: a plug cavity, stud or fuse on each of its sides, and the wires between them.
 *
 * <p>Of several points on one side it is the one that needs the least access besides what was opened in the case, then the
 * one with the fewest wires between. A meter is never put across a plug contact, so the ohms are those of wire and splices.
 *
 * @param from point on one side
 * @param to point on the other
 * @param wires the wires between, the wire itself among them
 */
record Stretch(String from, String to, List<Wire> wires) {
    Stretch {
        wires = List.copyOf(wires);
    }

    /** Ohms of the copper at a temperature in degrees Celsius, see {@link Conductor}. */
    double ohms(Layout layout, double celsius) {
        return wires.stream()
                .mapToDouble(w -> layout.metres(w) * w.size().ohmsPerMetre(celsius))
                .sum();
    }

    /** Finds stretches in one circuit with some access steps opened. */
    record Finder(Circuit circuit, Access access, Collection<String> opened) {
        Finder(Circuit circuit, Collection<String> opened) {
            this(circuit, new Access(circuit), Set.copyOf(opened));
        }

        /** The stretch through a wire; empty when one of its sides reaches nothing that a meter can touch. */
        Optional<Stretch> through(Wire wire) {
            Optional<Way> left = reach(wire, wire.from());
            Optional<Way> right = reach(wire, wire.to());
            if (left.isEmpty() || right.isEmpty()) return Optional.empty();
            List<Wire> all = new ArrayList<>(left.get().wires());
            all.add(wire);
            all.addAll(right.get().wires());
            return Optional.of(new Stretch(left.get().point(), right.get().point(), all));
        }

        /** A point and the wires that lead to it. */
        private record Way(String point, List<Wire> wires) {
            Way by(Wire wire, String next) {
                List<Wire> longer = new ArrayList<>(wires);
                longer.add(wire);
                return new Way(next, longer);
            }
        }

        /** Goes away from a wire's end through splices only. */
        private Optional<Way> reach(Wire wire, String end) {
            Map<String, Way> seen = new LinkedHashMap<>(Map.of(end, new Way(end, List.of())));
            Deque<String> next = new ArrayDeque<>(List.of(end));
            List<Way> touchable = new ArrayList<>();
            while (!next.isEmpty()) {
                Way here = seen.get(next.remove());
                if (touchable(here.point())) {
                    touchable.add(here);
                    continue;
                }
                for (Wire w : circuit.wires().values()) {
                    if (w.id().equals(wire.id()) || !ends(w, here.point())) continue;
                    String other = w.from().equals(here.point()) ? w.to() : w.from();
                    if (seen.putIfAbsent(other, here.by(w, other)) == null) next.add(other);
                }
            }
            return touchable.stream()
                    .min(Comparator.comparingDouble((Way w) -> minutes(w.point()))
                            .thenComparing(w -> w.wires().size()));
        }

        private static boolean ends(Wire w, String point) {
            return w.from().equals(point) || w.to().equals(point);
        }

        private boolean touchable(String point) {
            return !circuit.splices().containsKey(point);
        }

        private double minutes(String point) {
            String owner = Names.connectorOf(point);
            PlaceId.Kind kind = circuit.grounds().containsKey(point)
                    ? PlaceId.Kind.GROUND
                    : circuit.fuses().containsKey(owner) ? PlaceId.Kind.FUSE : PlaceId.Kind.CONNECTOR;
            return access.minutes(access.steps(new PlaceId(kind, owner)), opened);
        }
    }
}
