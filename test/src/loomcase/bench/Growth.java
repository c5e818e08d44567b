package loomcase.bench;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import loomcase.faults.Priors;
import loomcase.intake.Intake;
import loomcase.j1939.CodeList;
import loomcase.model.Circuit;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CircuitFacts;
import loomcase.rank.Evidence;
import loomcase.rank.Ranker;
import loomcase.rank.Ranking;

/** How the time of solving a dictionary and of ranking grows with the harness. */
final class Growth {
    private static final int[] TIMES = {1, 2, 4, 8};
    private static final int RUNS = 5;
    private static final Path LARCH = Path.of("circuits/larch-13.json");
    private static final String CODES = "94/4x3,98/4,100/4x3,101/4,157/4x3";

    private Growth() {}

    public static void main(String[] arguments) throws IOException {
        print(arguments.length > 0 ? Integer.parseInt(arguments[0]) : 8);
    }

    static void print(int largest) throws IOException {
        int n = (int) Arrays.stream(TIMES).filter(t -> t <= largest).count();
        double[] first = new double[n];
        double[] again = new double[n];
        measure(1);
        for (int i = 0; i < n; i++) {
            double[] got = measure(TIMES[i]);
            first[i] = got[0];
            again[i] = got[1];
            System.out.printf(
                    Locale.ROOT,
                    "%d x larch-13: %6.0f hypotheses, first ranking %8.0f ms, again %7.1f ms%n",
                    TIMES[i],
                    got[2],
                    first[i],
                    again[i]);
        }
        System.out.printf(
                Locale.ROOT,
                "growth as size to the power of: first ranking %.2f, again %.2f%n",
                exponent(first),
                exponent(again));
    }

    private static double[] measure(int times) throws IOException {
        Circuit circuit = Larger.of(LARCH, times);
        PolicyOutcome policy = Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit));
        Evidence evidence = Intake.typed(circuit, CodeList.parse(CODES), CodeList.parse(""), java.util.List.of())
                .evidence();
        Ranker ranker = new Ranker(circuit, Priors.builtIn(), policy);
        long start = System.nanoTime();
        Ranking ranking = ranker.rank(evidence, share -> {});
        double first = (System.nanoTime() - start) / 1e6;
        double[] again = new double[RUNS];
        for (int r = 0; r < RUNS; r++) {
            start = System.nanoTime();
            ranker.rank(evidence, share -> {});
            again[r] = (System.nanoTime() - start) / 1e6;
        }
        Arrays.sort(again);
        return new double[] {first, again[RUNS / 2], ranking.hypotheses()};
    }

    /** Slope of the logarithm of time over that of size, least squares. */
    private static double exponent(double[] millis) {
        double sx = 0;
        double sy = 0;
        double sxx = 0;
        double sxy = 0;
        for (int i = 0; i < millis.length; i++) {
            double x = Math.log(TIMES[i]);
            double y = Math.log(millis[i]);
            sx += x;
            sy += y;
            sxx += x * x;
            sxy += x * y;
        }
        int n = millis.length;
        return (n * sxy - sx * sy) / (n * sxx - sx * sx);
    }
}
