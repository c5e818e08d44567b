package loomcase.meter;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import loomcase.InputProblem;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Edit;
import loomcase.model.Names;

/**
 * How the engine is prepared for a test.
 *
 * @param power key on at some operating point, or key off
 * @param unplugged ids of connectors taken apart; of an inline pair either half may be named
 * @param jumpers leads put between two points
 * @param wireCelsius temperature of the wires, empty for that of the operating point
 * @param meter instrument used
 */
public record Setup(
        Power power, List<String> unplugged, List<Jumper> jumpers, OptionalDouble wireCelsius, Meter meter) {

    /** Whether there is voltage on the harness. */
    public sealed interface Power {}

    /**
     * Key on.
     *
     * @param operatingPoint id of the operating point
     * @param phase id of one of its phases
     */
    public record KeyOn(String operatingPoint, String phase) implements Power {}

    /**
     * Key off, nothing acts.
     *
     * @param batteryConnected false when the battery is disconnected too
     */
    public record KeyOff(boolean batteryConnected) implements Power {}

    /**
     * A lead between two points.
     *
     * @param pointA first point
     * @param pointB second point, possibly {@link Names#CHASSIS}
     * @param ohms its resistance, with any resistor built into it
     */
    public record Jumper(String pointA, String pointB, double ohms) {
        public Jumper {
            if (!(ohms > 0)) throw new IllegalArgumentException("jumper ohms is " + ohms + "; allowed is above 0");
        }
    }

    public Setup {
        unplugged = unplugged.stream().distinct().sorted().toList();
        jumpers = List.copyOf(jumpers);
    }

    /** Everything mated, key on. */
    public static Setup on(String operatingPoint, String phase) {
        return of(new KeyOn(operatingPoint, phase));
    }

    /** Everything mated, key off, battery connected. */
    public static Setup off() {
        return of(new KeyOff(true));
    }

    /** Everything mated, key off, battery disconnected. */
    public static Setup batteryOff() {
        return of(new KeyOff(false));
    }

    private static Setup of(Power power) {
        return new Setup(power, List.of(), List.of(), OptionalDouble.empty(), Meter.USUAL);
    }

    /** The same with more connectors taken apart. */
    public Setup unplug(List<String> connectors) {
        return new Setup(
                power, Stream.concat(unplugged.stream(), connectors.stream()).toList(), jumpers, wireCelsius, meter);
    }

    /** The same with one more jumper. */
    public Setup jump(String pointA, String pointB, double ohms) {
        List<Jumper> more = new ArrayList<>(jumpers);
        more.add(new Jumper(pointA, pointB, ohms));
        return new Setup(power, unplugged, more, wireCelsius, meter);
    }

    /** The same with the wires at another temperature, degrees Celsius. */
    public Setup wiresAt(double celsius) {
        return new Setup(power, unplugged, jumpers, OptionalDouble.of(celsius), meter);
    }

    /** The same with the wires as warm as the operating point has them. */
    Setup atUsualWarmth() {
        return new Setup(power, unplugged, jumpers, OptionalDouble.empty(), meter);
    }

    /** The same with another meter. */
    public Setup with(Meter other) {
        return new Setup(power, unplugged, jumpers, wireCelsius, other);
    }

    /** True when the harness is without any voltage of its own. */
    public boolean batteryDisconnected() {
        return power instanceof KeyOff k && !k.batteryConnected();
    }

    /** What the setup does to the circuit; the meter's own load belongs to the test. */
    public List<Edit> edits(Circuit circuit) {
        List<Edit> out = new ArrayList<>(apart(circuit, Edit.OPEN_OHMS));
        out.addAll(jumperEdits());
        return out;
    }

    /**
     * A fault with this setup put onto the engine: what the fault does, less paths that led across a plug now apart, and
     * what the setup does.
     */
    public List<Edit> over(Circuit circuit, List<Edit> fault) {
        List<Edit> out = Faults.under(circuit, this, fault);
        out.addAll(edits(circuit));
        return out;
    }

    /**
     * All contacts of the connectors taken apart.
     *
     * @param ohms what is left of each contact
     * @throws InputProblem when the circuit has no such connector
     */
    List<Edit> apart(Circuit circuit, double ohms) {
        List<Edit> out = new ArrayList<>();
        for (String id : unplugged) {
            Connector c = circuit.connectors().get(id);
            if (c == null) throw new InputProblem("circuit " + circuit.id() + " has no connector '" + id + "'");
            for (List<String> row : c.rows())
                for (String cavity : row) out.add(new Edit.Series(Names.contact(id + "/" + cavity), ohms));
        }
        return out;
    }

    List<Edit> jumperEdits() {
        return jumpers.stream()
                .<Edit>map(j -> new Edit.Bridge(j.pointA(), j.pointB(), j.ohms()))
                .toList();
    }

    /** True when both points sit on opposite sides of a plug that is apart, so that nothing can lead across it. */
    boolean parts(Circuit circuit, String pointA, String pointB) {
        return unplugged.stream().anyMatch(id -> {
            String mate = circuit.connectors().containsKey(id)
                    ? circuit.connectors().get(id).mates()
                    : "";
            return side(id, mate, pointA) * side(id, mate, pointB) < 0;
        });
    }

    /** 1 on the named half, −1 on what it plugs onto, 0 elsewhere. */
    private static int side(String connector, String mate, String point) {
        String owner = Names.connectorOf(point);
        if (owner.equals(connector)) return point.endsWith("~") ? -1 : 1;
        return !mate.isEmpty() && owner.equals(mate) ? -1 : 0;
    }

    /** In plain words. */
    public String words() {
        List<String> parts = new ArrayList<>();
        if (power instanceof KeyOn on) parts.add("key on (" + on.operatingPoint() + ", " + on.phase() + ")");
        else parts.add(batteryDisconnected() ? "key off, battery disconnected" : "key off");
        parts.add(unplugged.isEmpty() ? "all plugs mated" : "unplugged: " + String.join(", ", unplugged));
        jumpers.forEach(j -> parts.add("jumper " + j.pointA() + " to " + j.pointB()));
        wireCelsius.ifPresent(c -> parts.add("wires at " + Math.round(c) + " °C"));
        return String.join("; ", parts);
    }

    /** Short stable text for ids. */
    String id() {
        StringBuilder out = new StringBuilder("@");
        if (power instanceof KeyOn on)
            out.append(on.operatingPoint()).append('/').append(on.phase());
        else out.append(batteryDisconnected() ? "battery-off" : "key-off");
        unplugged.forEach(c -> out.append(" -").append(c));
        jumpers.forEach(j -> out.append(" +").append(j.pointA()).append('=').append(j.pointB()));
        wireCelsius.ifPresent(c -> out.append(" ").append(Math.round(c)).append('C'));
        return out.toString();
    }
}
