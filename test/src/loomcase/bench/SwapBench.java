package loomcase.bench;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import loomcase.fit.Fit;
import loomcase.fit.FitResult;
import loomcase.fit.Slip;
import loomcase.fit.Slips;
import loomcase.model.Circuit;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CircuitFacts;

/**
 * Measures what all single swaps of a plug cost on the reference harness: codes, damage and continuity check of each.
 *
 * <p>Run: {@code java -cp "target/test-classes:target/classes:target/lib/*" loomcase.bench.SwapBench J1 3}.
 */
public final class SwapBench {
    private SwapBench() {}

    public static void main(String[] arguments) {
        String plug = arguments.length > 0 ? arguments[0] : "J1";
        int rounds = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 3;
        Circuit circuit = CircuitReader.read(Path.of("circuits", "larch-13.json"));
        PolicyOutcome policy = Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit));
        FitResult fit = Fit.compare(circuit, circuit);
        for (int round = 1; round <= rounds; round++) {
            long start = System.nanoTime();
            List<Slip> all = new Slips(fit, policy).swaps(plug);
            long millis = (System.nanoTime() - start) / 1_000_000;
            Map<Slip.Effect, Integer> count = new EnumMap<>(Slip.Effect.class);
            all.forEach(s -> count.merge(s.effect(), 1, Integer::sum));
            long harmful = all.stream().filter(s -> !s.damage().isEmpty()).count();
            long open = all.stream()
                    .filter(s -> s.effect() == Slip.Effect.SILENT && s.check().isEmpty())
                    .count();
            System.out.printf(
                    "round %d: %d swaps of %s in %d ms: %s, %d may damage, %d silent without a check, %d unsettled%n",
                    round,
                    all.size(),
                    plug,
                    millis,
                    count,
                    harmful,
                    open,
                    all.stream().filter(s -> !s.settled()).count());
        }
        if (arguments.length < 3) return;
        new Slips(fit, policy)
                .swaps(plug).stream()
                        .filter(s ->
                                s.effect() == Slip.Effect.SILENT || !s.damage().isEmpty())
                        .sorted(Comparator.comparing(Slip::cavity))
                        .forEach(s -> System.out.println(s.cavity() + " " + s.other() + " " + s.effect() + " "
                                + s.damage() + " " + s.wrongOhms()));
    }
}
