package loomcase.bench;

import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.meter.Catalogue;
import loomcase.meter.MeterPrediction;
import loomcase.meter.Observations;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.predict.CircuitFacts;
import loomcase.predict.CodeTable;
import loomcase.solve.NetworkSolver;

/**
 * Measures what one prediction costs on the reference harness: every listed test near one suspected sensor, under every
 * hypothesis with fixed edits that falls into a fixed sample. Round 1 includes warming up and, for codes watched, the
 * solving; later rounds find those predictions kept. Times are processor time.
 *
 * <p>Run: {@code mvn -q test-compile exec:exec -Dexec.executable=java -Dexec.classpathScope=test "-Dexec.args=-cp
 * %classpath loomcase.bench.MeterBench"}.
 */
public final class MeterBench {
    private static final int HYPOTHESES = 300;
    private static final int ROUNDS = 3;

    private MeterBench() {}

    public static void main(String[] arguments) {
        Circuit circuit = CircuitReader.read(Path.of("circuits", "larch-13.json"));
        Layout layout = new Layout(circuit);
        NetworkSolver solver = new NetworkSolver(circuit, layout);
        var policy = Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit));
        CodeTable table = new CodeTable(circuit.watches(), policy, List.of(), 0.05);
        MeterPrediction meter = new MeterPrediction(circuit, layout, solver, table, Observations.builtIn(), 0.3);
        List<Test> tests = new Catalogue(circuit, layout)
                .of(List.of(new PlaceId(PlaceId.Kind.DEVICE, "OPS"), new PlaceId(PlaceId.Kind.DEVICE, "VGT")));
        List<Subject> subjects = sample(new FaultGenerator(circuit, layout, Priors.builtIn()).generate());
        System.out.printf("%d tests, %d hypotheses%n", tests.size(), subjects.size());
        time(
                "Volts, network",
                meter,
                tests.stream().filter(MeterBench::onNetwork).toList(),
                subjects);
        List<Test> plain = tests.stream().filter(t -> !onNetwork(t)).toList();
        for (String kind : List.of("Volts", "Ohms", "Isolation", "Drop", "UnplugAndWatch", "JumperAndWatch", "Look")) {
            List<Test> of = plain.stream()
                    .filter(t -> t.getClass().getSimpleName().equals(kind))
                    .toList();
            if (!of.isEmpty()) time(kind, meter, of, subjects);
        }
    }

    /** Processor time of this thread in nanoseconds, so that other work on the machine does not count. */
    private static long cpu() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static void time(String kind, MeterPrediction meter, List<Test> tests, List<Subject> subjects) {
        for (int round = 0; round < ROUNDS; round++) {
            List<Double> millis = new ArrayList<>();
            double first = 0;
            for (Test t : tests) {
                long start = cpu();
                meter.predict(t, Subject.NOTHING);
                first += (cpu() - start) / 1e6;
                for (Subject s : subjects) {
                    long at = cpu();
                    meter.predict(t, s);
                    millis.add((cpu() - at) / 1e6);
                }
            }
            millis.sort(Double::compare);
            System.out.printf(
                    Locale.ROOT,
                    "%-15s round %d: mean %.4f ms, median %.4f, 99 %% %.3f; first of each test %.2f ms%n",
                    kind,
                    round + 1,
                    millis.stream().mapToDouble(Double::doubleValue).average().orElse(0),
                    millis.get(millis.size() / 2),
                    millis.get(millis.size() * 99 / 100),
                    first / tests.size());
        }
    }

    /** Volts of a network line are averaged over nine instants. */
    private static boolean onNetwork(Test t) {
        return t instanceof Test.Volts v
                && List.of("C-VGT/3", "C-VGT/4", "C-SVC/C", "C-SVC/D", "J1/8", "J1/9")
                        .contains(v.pointA());
    }

    private static List<Subject> sample(List<Hypothesis> all) {
        List<Subject> fixed = all.stream()
                .filter(h -> h.cause() instanceof Hypothesis.Fixed)
                .map(h -> new Subject(h.family(), h.places(), h.comesAndGoes(), ((Hypothesis.Fixed) h.cause()).edits()))
                .toList();
        List<Subject> out = new ArrayList<>();
        for (int i = 0; i < HYPOTHESES; i++) out.add(fixed.get((int) ((long) i * fixed.size() / HYPOTHESES)));
        return out;
    }
}
