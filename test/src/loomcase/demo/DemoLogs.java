package loomcase.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Random;
import loomcase.j1939.CanId;
import loomcase.j1939.Code;
import loomcase.j1939.ConversionMethod;
import loomcase.j1939.Dtc;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.j1939.TroubleMessage;
import loomcase.j1939.log.DmEncoder;
import loomcase.model.Circuit;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CircuitFacts;

/**
 * Writes the demo logs of {@code demo-cases/}: invented recordings of the reference harness with one planted fault each.
 *
 * <p>Run from the project folder after the tests are compiled: {@code java -cp "target/test-classes:target/classes:target/lib/*"
 * loomcase.demo.DemoLogs}.
 */
public final class DemoLogs {
    private static final int ENGINE = 0;
    private static final int GEARBOX = 3;
    private static final int ENGINE_SPEED = 61444;
    private static final int ENGINE_TEMPERATURE = 65262;
    private static final double START = 1_790_000_000.0;

    private DemoLogs() {}

    public static void main(String[] arguments) throws IOException {
        Circuit circuit = CircuitReader.read(Path.of("circuits/larch-13.json"));
        PolicyOutcome policy = Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit));
        for (Planted p : Planted.all(circuit)) {
            List<Code> codes = p.codes(circuit, policy);
            Files.write(
                    Path.of("demo-cases", p.name() + ".log"),
                    log(codes, Planted.counts(codes), p.name().hashCode()));
            System.out.println(p.name() + ": " + p.words() + " -> " + codes);
        }
    }

    /** Twenty seconds of traffic: engine speed and temperature, trouble messages once a second, a gearbox without codes. */
    public static List<String> log(List<Code> codes, Map<Code, Integer> counts, long seed) {
        Random random = new Random(seed);
        DmEncoder encoder = new DmEncoder("can0", 0.06);
        List<String> lines = new ArrayList<>();
        for (int tick = 0; tick < 200; tick++) {
            double t = START + tick * 0.1 + random.nextDouble() * 0.002;
            double rpm = tick < 30 ? 0 : 690 + random.nextInt(20);
            int raw = (int) (rpm / 0.125);
            byte[] speed = {
                (byte) 0xF0, (byte) 0xFF, (byte) 0x7D, (byte) raw, (byte) (raw >> 8), (byte) 0xFF, 0, (byte) 0xFF
            };
            lines.add(encoder.line(t, new CanId(3, ENGINE_SPEED, ENGINE, CanId.EVERYBODY), speed));
            if (tick % 10 != 0) continue;
            byte[] temperature = {
                (byte) 122, (byte) 0xFF, (byte) 0xFF, (byte) 0xFF, (byte) 0xFF, (byte) 0xFF, (byte) 0xFF, (byte) 0xFF
            };
            lines.add(encoder.line(t + 0.01, new CanId(6, ENGINE_TEMPERATURE, ENGINE, CanId.EVERYBODY), temperature));
            lines.addAll(encoder.toAll(
                    t + 0.02, TroubleMessage.Kind.DM1, GEARBOX, new TroubleMessage(Lamps.OFF, List.of())));
            List<Code> now = tick < 20 ? List.of() : codes;
            lines.addAll(encoder.toAll(t + 0.03, TroubleMessage.Kind.DM1, ENGINE, message(now, counts)));
        }
        lines.sort(Comparator.comparing(line -> line.substring(0, line.indexOf(')'))));
        return lines;
    }

    private static TroubleMessage message(List<Code> codes, Map<Code, Integer> counts) {
        if (codes.isEmpty()) return new TroubleMessage(Lamps.OFF, List.of());
        Lamps lamps = new Lamps(Lamp.OFF, Lamp.ON, Lamp.OFF, Lamp.OFF);
        return new TroubleMessage(
                lamps,
                codes.stream()
                        .map(c -> Dtc.of(c, OptionalInt.of(counts.get(c)), ConversionMethod.VERSION_4))
                        .toList());
    }
}
