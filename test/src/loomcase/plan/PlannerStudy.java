package loomcase.plan;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.j1939.Code;
import loomcase.meter.Test;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CircuitFacts;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.rank.Evidence;
import loomcase.rank.Ranker;
import loomcase.rank.Ranking;
import loomcase.solve.NetworkSolver;

/**
 * Mean minutes to a settled case over planted faults: the planner beside three ways that people work.
 *
 * <p>Faults are drawn from the priors; codes are those our own network predicts, and test outcomes are drawn from our own
 * predictions. So this compares ways of choosing tests under one model; it says nothing about the model's accuracy.
 *
 * <p>Run from the project folder after {@code mvn verify}: {@code java -cp "target/test-classes:target/classes:target/lib/*"
 * loomcase.plan.PlannerStudy circuits/larch-13.json 500 1}.
 */
public final class PlannerStudy {
    private static final List<String> POINTS = List.of("key-on", "idle-warm");
    private static final double SURE = 0.9;
    private static final double SENSOR_MINUTES = 15;
    private static final int MOST_TESTS = 12;

    private final Circuit circuit;
    private final Planner planner;
    private final Ranker ranker;
    private final Predictor predictor;
    private final List<Hypothesis> singles = new ArrayList<>();
    private final Random random;
    private final Map<String, double[]> sums = new LinkedHashMap<>();

    private PlannerStudy(Path file, long seed) {
        this.circuit = CircuitReader.read(file);
        Layout layout = new Layout(circuit);
        PolicyOutcome policy = Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit));
        this.planner = new Planner(circuit, layout, Priors.builtIn(), PlannerTest.FORBIDDEN);
        this.ranker = new Ranker(circuit, Priors.builtIn(), policy);
        this.predictor = new Predictor(
                circuit,
                new NetworkSolver(circuit, layout),
                new CodeTable(circuit.watches(), policy, List.of(), 0),
                POINTS);
        for (Hypothesis h : new FaultGenerator(circuit, layout, Priors.builtIn()).generate())
            if (h.cause() instanceof Hypothesis.Fixed f
                    && !f.edits().isEmpty()
                    && h.place().kind() != PlaceId.Kind.ENGINE) singles.add(h);
        this.random = new Random(seed);
    }

    public static void main(String[] arguments) {
        new PlannerStudy(Path.of(arguments[0]), Long.parseLong(arguments[2])).run(Integer.parseInt(arguments[1]));
    }

    private void run(int wanted) {
        int done = 0;
        int silent = 0;
        int unplanned = 0;
        while (done < wanted) {
            Hypothesis truth = draw();
            List<Code> codes = codes(truth);
            if (codes.isEmpty()) {
                silent++;
                continue;
            }
            Evidence e = new Evidence(
                    codes.stream()
                            .map(c -> new Evidence.Seen(c, Evidence.State.ACTIVE, OptionalInt.empty()))
                            .toList(),
                    POINTS);
            Ranking ranking = ranker.rank(e, s -> {});
            Planner.Prepared p = planner.prepare(ranking, ranker.meter(e), Set.of(), Set.of());
            int index = index(p, truth);
            if (index < 0) {
                unplanned++;
                continue;
            }
            done++;
            long seed = random.nextLong();
            add("planner", p, index, seed, codes);
            add("information gain, no cost", p, index, seed, codes);
            add("half-split", p, index, seed, codes);
            add("sensors first", p, index, seed, codes);
            if (done % 10 == 0) System.err.printf("\r%d of %d", done, wanted);
        }
        System.err.println();
        System.out.printf(
                "%d planted faults on %s (%d drawn that show no code, %d too improbable to be planned for)%n",
                done, circuit.id(), silent, unplanned);
        System.out.println("| way of working | mean minutes to the right place | tests | wrong place first |");
        System.out.println("|---|---|---|---|");
        for (Map.Entry<String, double[]> s : sums.entrySet())
            System.out.printf(
                    Locale.ROOT,
                    "| %s | %.0f | %.1f | %.1f %% |%n",
                    s.getKey(),
                    s.getValue()[0] / done,
                    s.getValue()[1] / done,
                    100 * s.getValue()[2] / done);
    }

    private Hypothesis draw() {
        double total = singles.stream().mapToDouble(Hypothesis::probability).sum();
        double x = random.nextDouble() * total;
        for (Hypothesis h : singles) {
            x -= h.probability();
            if (x <= 0) return h;
        }
        return singles.get(singles.size() - 1);
    }

    private List<Code> codes(Hypothesis h) {
        Prediction p = predictor.predict(((Hypothesis.Fixed) h.cause()).edits());
        List<Code> out = new ArrayList<>();
        for (int k = 0; k < p.codes().length; k++)
            if (p.probability()[k] > 0.5) out.add(predictor.table().codes().get(p.codes()[k]));
        return out;
    }

    private static int index(Planner.Prepared p, Hypothesis truth) {
        for (int h = 0; h < p.left().size(); h++) if (p.left().get(h).id().equals(truth.id())) return h;
        return -1;
    }

    private void add(String way, Planner.Prepared p, int truth, long seed, List<Code> codes) {
        double[] result = simulate(way, p, truth, new Random(seed), codes);
        double[] sum = sums.computeIfAbsent(way, k -> new double[3]);
        for (int i = 0; i < 3; i++) sum[i] += result[i];
    }

    /** Minutes, tests, and 1 when a wrong place was settled on. */
    private double[] simulate(String way, Planner.Prepared p, int truth, Random outcomes, List<Code> codes) {
        Decision d = p.decision();
        double minutes = 0;
        int tests = 0;
        BitSet open = new BitSet();
        double[] w = d.weight().clone();
        if (way.equals("sensors first")) {
            for (String device : devices(codes)) {
                minutes += SENSOR_MINUTES + access(d, p, device);
                tests++;
                if (p.left().get(truth).place().equals(new PlaceId(PlaceId.Kind.DEVICE, device)))
                    return new double[] {minutes, tests, 0};
                for (int h = 0; h < w.length; h++)
                    if (p.left().get(h).place().id().equals(device)) w[h] = 0;
            }
        }
        while (tests < MOST_TESTS && Decision.sum(w) > 0) {
            scale(w);
            Decision.Test t = choose(way, p, w, open);
            if (t == null) break;
            minutes += d.minutes(t, open);
            open.or(t.steps());
            tests++;
            w = d.after(w, t, sample(t.chance()[truth], outcomes));
        }
        int named = best(d, w);
        minutes += d.settleMinutes()[named];
        boolean wrong = named != d.place()[truth];
        if (wrong) minutes += d.wrongMinutes() + d.settleMinutes()[d.place()[truth]];
        return new double[] {minutes, tests, wrong ? 1 : 0};
    }

    private Set<String> devices(List<Code> codes) {
        Set<String> out = new LinkedHashSet<>();
        for (Code c : codes)
            circuit.watches().stream()
                    .filter(x -> x.spn() == c.spn() && !x.device().isEmpty())
                    .forEach(x -> out.add(x.device()));
        return out;
    }

    private double access(Decision d, Planner.Prepared p, String device) {
        for (int h = 0; h < p.left().size(); h++)
            if (p.left().get(h).place().id().equals(device)) return d.settleMinutes()[d.place()[h]];
        return SENSOR_MINUTES;
    }

    private static Decision.Test choose(String way, Planner.Prepared p, double[] w, BitSet open) {
        Decision d = p.decision();
        if (way.equals("planner"))
            return new Lookahead(d).choose(w, open, 1).test().orElse(null);
        double[] byPlace = new double[d.settleMinutes().length];
        for (int h = 0; h < w.length; h++) byPlace[d.place()[h]] += w[h];
        for (double b : byPlace) if (b >= SURE) return null;
        boolean split = way.equals("half-split");
        return d.tests().stream()
                .filter(t -> gain(d, w, t) > 0.02)
                .filter(t -> !split || p.tests().get(t.id()) instanceof Test.Volts)
                .max(Comparator.comparingDouble((Decision.Test t) -> split ? -uneven(t, w) : gain(d, w, t))
                        .thenComparing(Decision.Test::id))
                .orElse(null);
    }

    /** How far a test is from cutting the hypotheses still possible into two equal numbers. */
    private static double uneven(Decision.Test t, double[] w) {
        int[] count = new int[t.outcomes()];
        int all = 0;
        for (int h = 0; h < w.length; h++) {
            if (w[h] < 1e-3) continue;
            int likeliest = 0;
            for (int o = 1; o < t.outcomes(); o++) if (t.chance()[h][o] > t.chance()[h][likeliest]) likeliest = o;
            count[likeliest]++;
            all++;
        }
        int most = 0;
        for (int c : count) most = Math.max(most, c);
        return Math.abs(most - all / 2.0);
    }

    private static double gain(Decision d, double[] w, Decision.Test t) {
        double after = 0;
        for (int o = 0; o < t.outcomes(); o++) after += d.entropy(d.after(w, t, o));
        return d.entropy(w) - after;
    }

    private static int best(Decision d, double[] w) {
        double[] byPlace = new double[d.settleMinutes().length];
        for (int h = 0; h < w.length; h++) byPlace[d.place()[h]] += w[h];
        int best = 0;
        for (int i = 1; i < byPlace.length; i++) if (byPlace[i] > byPlace[best]) best = i;
        return best;
    }

    private static int sample(double[] chance, Random random) {
        double x = random.nextDouble();
        for (int o = 0; o < chance.length; o++) {
            x -= chance[o];
            if (x <= 0) return o;
        }
        return chance.length - 1;
    }

    private static void scale(double[] w) {
        double sum = Decision.sum(w);
        for (int h = 0; h < w.length; h++) w[h] /= sum;
    }
}
