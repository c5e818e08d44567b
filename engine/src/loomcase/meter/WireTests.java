package loomcase.meter;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Device;
import loomcase.model.Names;
import loomcase.model.Wire;

/** Tests of one wire: volts at its ends, ohms end to end, isolation, drop. */
final class WireTests {
    /** Most connectors that are worth taking apart for one test. */
    private static final int MOST_APART = 4;

    private static final int MOST_NEIGHBOURS = 3;

    private final Circuit circuit;
    private final Nets nets;

    WireTests(Circuit circuit, Nets nets) {
        this.circuit = circuit;
        this.nets = nets;
    }

    List<Test> of(Wire w) {
        List<Test> out = new ArrayList<>();
        Optional<String> a = reach(w.from(), w);
        Optional<String> b = reach(w.to(), w);
        List<String> probed =
                Stream.of(a, b).flatMap(Optional::stream).distinct().toList();
        List<String> cavities = probed.stream().filter(nets::isCavity).toList();
        cavities.forEach(c -> volts(c, out));
        if (probed.size() == 2) endToEnd(probed.get(0), probed.get(1), out);
        isolation(w, out);
        drop(cavities, out);
        return out;
    }

    private List<String> ends(Wire w) {
        return Stream.of(w.from(), w.to()).filter(nets::isCavity).toList();
    }

    private void volts(String cavity, List<Test> out) {
        Setup rest = Points.rest(circuit);
        out.add(new Test.Volts(cavity, Names.CHASSIS, rest));
        Device d = circuit.devices()
                .get(circuit.connectors().get(Names.connectorOf(cavity)).mates());
        String ret = d == null
                ? ""
                : d.terminals().getOrDefault("return", d.terminals().getOrDefault("ground", ""));
        if (!ret.isEmpty() && !ret.equals(cavity)) out.add(new Test.Volts(cavity, ret, rest));
    }

    /**
     * A point at which an end of the wire can be probed: the end itself, or for a splice a cavity on that side of the
     * wire, the control unit's first.
     */
    private Optional<String> reach(String end, Wire w) {
        if (!circuit.splices().containsKey(end)) return Optional.of(end);
        List<String> far = nets.beyond(w, end);
        return far.stream()
                .filter(c -> circuit.controlUnit().pins().containsKey(c))
                .findFirst()
                .or(() -> far.stream().findFirst());
    }

    private void endToEnd(String a, String b, List<Test> out) {
        List<String> apart = Stream.of(a, b)
                .filter(nets::isCavity)
                .map(Names::connectorOf)
                .distinct()
                .toList();
        boolean both = nets.isCavity(a) && nets.isCavity(b);
        Setup setup = both ? Setup.off() : Setup.batteryOff();
        out.add(new Test.Ohms(a, b, setup.unplug(apart)));
    }

    private void isolation(Wire w, List<Test> out) {
        if (nets.isGround(w.from()) || ends(w).isEmpty()) return;
        List<String> apart = nets.connectors(w.from());
        if (apart.size() > MOST_APART) return;
        Setup off = (nets.isFeed(w.from()) ? Setup.batteryOff() : Setup.off()).unplug(apart);
        String at = ends(w).stream()
                .filter(c -> !circuit.controlUnit().pins().containsKey(c))
                .findFirst()
                .orElse(ends(w).get(0));
        out.add(new Test.Isolation(at, Names.CHASSIS, off));
        if (!nets.isFeed(w.from()))
            out.add(new Test.Volts(at, Names.CHASSIS, Points.rest(circuit).unplug(apart)));
        for (String end : ends(w))
            neighbours(end).stream()
                    .filter(n -> !nets.of(n).equals(nets.of(end)))
                    .limit(MOST_NEIGHBOURS)
                    .forEach(n -> out.add(new Test.Isolation(end, n, off)));
    }

    /** Cavities beside one that hold a wire: left, right, above, below. */
    private List<String> neighbours(String cavity) {
        Connector c = circuit.connectors().get(Names.connectorOf(cavity));
        List<String> out = new ArrayList<>();
        for (int r = 0; r < c.rows().size(); r++) {
            int k = c.rows().get(r).indexOf(Names.cavityOf(cavity));
            if (k < 0) continue;
            for (int[] at : new int[][] {{r, k - 1}, {r, k + 1}, {r - 1, k}, {r + 1, k}})
                if (at[0] >= 0
                        && at[0] < c.rows().size()
                        && at[1] >= 0
                        && at[1] < c.rows().get(at[0]).size())
                    out.add(c.id() + "/" + c.rows().get(at[0]).get(at[1]));
        }
        return out.stream().filter(n -> nets.cavities(n).contains(n)).toList();
    }

    private void drop(List<String> cavities, List<Test> out) {
        Setup loaded = Points.loaded(circuit);
        for (String end : cavities) {
            if (nets.isGround(end)) out.add(new Test.Drop(end, Names.CHASSIS, loaded));
            else if (nets.isFeed(end))
                battery()
                        .filter(plus -> !plus.equals(end))
                        .ifPresent(plus -> out.add(new Test.Drop(plus, end, loaded)));
        }
    }

    private Optional<String> battery() {
        return circuit.batteries().stream()
                .map(d -> d.terminals().get("positive"))
                .findFirst();
    }
}
