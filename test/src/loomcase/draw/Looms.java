package loomcase.draw;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.Function;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Conductor;
import loomcase.model.Connector;
import loomcase.model.ControlUnit;
import loomcase.model.Costs;
import loomcase.model.Device;
import loomcase.model.Joints;
import loomcase.model.PlaceId;
import loomcase.model.Wire;
import loomcase.model.Zone;
import loomcase.model.read.CircuitReader;

/** Circuits to draw: those of the project, and bare ones made of parts that only a picture needs. */
final class Looms {
    static final Zone ZONE = new Zone("zone", 80, Zone.Vibration.LOW, Zone.Fluid.DRY);

    final List<Branch> branches = new ArrayList<>();
    final List<Connector> connectors = new ArrayList<>();
    final List<Joints.Splice> splices = new ArrayList<>();
    final List<Joints.Ground> grounds = new ArrayList<>();
    final List<Joints.Fuse> fuses = new ArrayList<>();
    final List<Device> devices = new ArrayList<>();
    final List<Wire> wires = new ArrayList<>();
    String title = "made for a test";

    static Circuit read(String name) {
        return CircuitReader.read(Path.of("circuits", name));
    }

    Looms branch(String id, String from, String to, double metres, Branch.RubPoint... rubs) {
        branches.add(new Branch(id, "branch called " + id, from, to, metres, ZONE, 0, List.of(rubs), List.of()));
        return this;
    }

    Looms plug(String id, String at, String mates) {
        connectors.add(new Connector(
                id, "plug of " + mates, at, mates, List.of(List.of("1", "2", "3")), "t", true, ZONE, List.of()));
        return this;
    }

    Looms device(String id, String label) {
        Device.Nature coil = new Device.Load("coil", 10);
        devices.add(new Device(id, label, coil, Map.of(), 1, List.of(), List.of()));
        return this;
    }

    Looms splice(String id, String branch, double metresAlong) {
        splices.add(new Joints.Splice(id, "splice called " + id, branch, metresAlong));
        return this;
    }

    Looms wire(String id, String from, String to) {
        wires.add(new Wire(id, "circuit " + id, from, to, Conductor.parse("1mm2"), "red", "", OptionalDouble.empty()));
        return this;
    }

    Circuit circuit() {
        ControlUnit unit = new ControlUnit("ECM", "engine control unit", 0, List.of("J1"), Map.of(), Map.of(), 6);
        BigDecimal one = BigDecimal.ONE;
        return new Circuit(
                "test",
                title,
                "invented for a test",
                Map.of(),
                keyed(branches, Branch::id),
                keyed(connectors, Connector::id),
                keyed(splices, Joints.Splice::id),
                keyed(grounds, Joints.Ground::id),
                keyed(fuses, Joints.Fuse::id),
                keyed(devices, Device::id),
                unit,
                keyed(wires, Wire::id),
                List.of(),
                Map.of(),
                new Costs("CU", one, one, 1, List.of(), Map.of(), Map.of(), one));
    }

    private static <T> Map<String, T> keyed(List<T> values, Function<T, String> id) {
        Map<String, T> out = new LinkedHashMap<>();
        values.forEach(v -> out.put(id.apply(v), v));
        return out;
    }

    /** A random tree of branches with parts on it, in random directions, with labels of any length and odd characters. */
    static Circuit random(Random random, int branches) {
        Looms l = new Looms().plug("J1", "N0", "ECM");
        if (random.nextBoolean()) l.plug("J2", "N0", "ECM");
        List<String> ends = new ArrayList<>(List.of("J1/1", "J1/2"));
        for (int i = 1; i <= branches; i++) {
            int parent = Math.max(0, i - 1 - random.nextInt(1 + Math.min(i - 1, 12)));
            boolean outward = random.nextBoolean();
            String id = "B" + i;
            Branch.RubPoint[] rubs = new Branch.RubPoint[random.nextInt(3)];
            for (int k = 0; k < rubs.length; k++)
                rubs[k] = new Branch.RubPoint("R" + i + k, words(random), random.nextDouble());
            l.branches.add(new Branch(
                    id,
                    words(random),
                    "N" + (outward ? parent : i),
                    "N" + (outward ? i : parent),
                    1,
                    ZONE,
                    0,
                    List.of(rubs),
                    List.of()));
            for (int k = random.nextInt(4); k > 0; k--) {
                l.splice("S" + i + "-" + k, id, random.nextInt(11) / 10.0);
                ends.add("S" + i + "-" + k);
            }
            hang(l, random, i, ends);
        }
        for (int i = 0; i < 3 * branches; i++) {
            String from = ends.get(random.nextInt(ends.size()));
            String to = ends.get(random.nextInt(ends.size()));
            if (!from.equals(to)) l.wire("W" + i, from, to);
        }
        return l.circuit();
    }

    private static void hang(Looms l, Random random, int node, List<String> ends) {
        for (int k = random.nextInt(4); k > 0; k--) {
            String device = "D" + node + (random.nextInt(5) == 0 ? "-with-a-very-long-name-" : "-") + k;
            l.device(device, words(random)).plug("C-" + device, "N" + node, device);
            ends.add("C-" + device + "/2");
        }
        if (random.nextInt(4) == 0)
            l.plug("X" + node + "a", "N" + node, "X" + node + "b").plug("X" + node + "b", "N" + node, "X" + node + "a");
        if (random.nextInt(4) == 0)
            l.grounds.add(new Joints.Ground("G" + node, words(random), "N" + node, 0.01, List.of()));
        if (random.nextInt(4) == 0)
            l.fuses.add(new Joints.Fuse("F" + node, words(random), "N" + node, 10, 0.01, List.of()));
    }

    private static String words(Random random) {
        String[] some = {
            "sensor", "<b>", "a&b", "\"front\"", "supply", "Öl", "x", "\u0001", "motor", "插头", "\ud83d\ude9c", "it's"
        };
        StringBuilder out = new StringBuilder("a");
        for (int i = random.nextInt(9); i >= 0; i--) out.append(' ').append(some[random.nextInt(some.length)]);
        return out.toString();
    }

    /** Random shares with up to six marks and up to four traced wires. */
    static Suspicion suspect(Random random, Circuit c) {
        List<PlaceId> all = places(c);
        c.wires().keySet().forEach(w -> all.add(new PlaceId(PlaceId.Kind.WIRE, w)));
        c.connectors().keySet().forEach(k -> all.add(new PlaceId(PlaceId.Kind.CAVITY, k + "/2")));
        all.add(new PlaceId(PlaceId.Kind.ENGINE, "none"));
        all.add(c.controlUnit().place());
        Map<PlaceId, Double> shares = new LinkedHashMap<>();
        List<Suspicion.Mark> marks = new ArrayList<>();
        for (int i = random.nextInt(14); i > 0; i--) {
            PlaceId p = all.get(random.nextInt(all.size()));
            boolean fresh = shares.put(p, Math.pow(random.nextDouble(), 3)) == null;
            if (fresh && marks.size() < 6) marks.add(new Suspicion.Mark(marks.size() + 1, p, words(random)));
        }
        List<String> trace = c.wires().keySet().stream()
                .filter(w -> random.nextInt(c.wires().size()) < 4)
                .toList();
        return new Suspicion(shares, marks, trace);
    }

    /** Every place that must be drawn. */
    static List<PlaceId> places(Circuit c) {
        List<PlaceId> out = new ArrayList<>();
        c.branches().keySet().forEach(i -> out.add(new PlaceId(PlaceId.Kind.BRANCH, i)));
        c.connectors().keySet().forEach(i -> out.add(new PlaceId(PlaceId.Kind.CONNECTOR, i)));
        c.splices().keySet().forEach(i -> out.add(new PlaceId(PlaceId.Kind.SPLICE, i)));
        c.grounds().keySet().forEach(i -> out.add(new PlaceId(PlaceId.Kind.GROUND, i)));
        c.fuses().keySet().forEach(i -> out.add(new PlaceId(PlaceId.Kind.FUSE, i)));
        c.devices().keySet().forEach(i -> out.add(new PlaceId(PlaceId.Kind.DEVICE, i)));
        return out;
    }
}
