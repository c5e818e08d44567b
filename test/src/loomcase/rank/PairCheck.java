package loomcase.rank;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CircuitFacts;
import loomcase.predict.Predictor;

/**
 * How many of the best twenty pairs of faults each search loses, against every pair solved jointly, and what each costs.
 *
 * <p>Run from the project folder: {@code java -Xmx3g -cp "target/test-classes:target/classes:$(cat
 * target/test-classpath.txt)" loomcase.rank.PairCheck circuits/larch-13.json CASES SEED [times]}; with {@code times} the
 * searches are timed and not checked. A case is the codes of two drawn faults, by turns evenly and by their priors. Both
 * wall clock and processor time of all threads are given, in milliseconds, each after {@value #WARM} runs; the exhaustive
 * search takes a minute or more for a case.
 */
public final class PairCheck {
    private static final int BEST = 20;

    /** Runs before the one that is timed. */
    private static final int WARM = 6;

    /** Share of the posterior below which no suspect is listed. */
    private static final double MATTERS = 1e-4;

    private static final OperatingSystemMXBean SYSTEM =
            (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

    private final Ranker ranker;
    private final Random random;
    private final boolean check;
    private final int[] lost = new int[4];
    private long pairs;
    private int cases;

    private PairCheck(Ranker ranker, Random random, boolean check) {
        this.ranker = ranker;
        this.random = random;
        this.check = check;
    }

    public static void main(String[] arguments) throws IOException {
        if (arguments.length < 3) {
            System.err.println("give a circuit file, how many cases, and a seed");
            System.exit(2);
        }
        Circuit circuit = CircuitReader.read(Path.of(arguments[0]));
        Priors priors = Priors.builtIn();
        PolicyOutcome policy = Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit));
        List<Hypothesis> hypotheses = new FaultGenerator(circuit, new Layout(circuit), priors).generate();
        PairCheck bench = new PairCheck(
                new Ranker(circuit, priors, policy), new Random(Long.parseLong(arguments[2])), arguments.length < 4);
        bench.run(hypotheses, Integer.parseInt(arguments[1]));
    }

    private void run(List<Hypothesis> hypotheses, int wanted) {
        Predictor predictor = ranker.weighed(new Evidence(List.of(), Complaints.BOTH), share -> {})
                .predictor();
        while (cases < wanted) {
            List<Edit> edits = new ArrayList<>(Complaints.fault(hypotheses, random, cases % 2 == 0));
            edits.addAll(Complaints.fault(hypotheses, random, cases % 2 == 0));
            Evidence e = Complaints.drawn(predictor, predictor.predict(edits), random, 0);
            if (e.codes().size() < 2) continue;
            cases++;
            one(e);
        }
        if (check)
            System.out.printf(
                    Locale.ROOT,
                    "%d cases, %d pairs solved jointly; of the best %d lost by the quick search %d, by that of all pairs %d; of"
                            + " those with a share of %g or more of the posterior %d and %d%n",
                    cases,
                    pairs,
                    BEST,
                    lost[0],
                    lost[1],
                    MATTERS,
                    lost[2],
                    lost[3]);
    }

    private record Cost(double wall, double processor) {
        static Cost of(Runnable work) {
            for (int k = 0; k < WARM; k++) work.run();
            long wall = System.nanoTime();
            long processor = SYSTEM.getProcessCpuTime();
            work.run();
            return new Cost((System.nanoTime() - wall) / 1e6, (SYSTEM.getProcessCpuTime() - processor) / 1e6);
        }

        @Override
        public String toString() {
            return String.format(Locale.ROOT, "%.0f ms (%.0f of processors)", wall, processor);
        }
    }

    private void one(Evidence e) {
        Ranker.Weighed w = ranker.weighed(e, share -> {});
        PairSearch search = new PairSearch(w.predictor(), w.likelihood(), w.tests());
        List<Group> quick = search.search(w.groups());
        double total = Double.NEGATIVE_INFINITY;
        for (Group g : w.groups()) total = Likelihood.logSum(total, g.logScore());
        for (Group g : quick) total = Likelihood.logSum(total, g.logScore());
        double floor = total + Math.log(MATTERS);
        List<Group[]> likely =
                quick.stream().map(g -> g.parts().toArray(new Group[0])).toList();
        if (check) {
            check(w, quick, floor, likely);
            return;
        }
        Cost singles = Cost.of(() -> ranker.weighed(e, share -> {}));
        AllPairs[] last = new AllPairs[2];
        // A predictor remembers joint solutions; a big batch makes it forget, so that each run pays for its own.
        Cost matter = Cost.of(() -> {
            w.predictor().forget();
            last[0] = new AllPairs(w.predictor(), w.likelihood(), w.groups(), BEST, floor);
            last[0].search(likely);
        });
        System.out.printf(
                Locale.ROOT,
                "case %d: %d codes, %d hypotheses, %d groups; singles %s; pairs that can matter: %d solved, %s%n",
                cases,
                e.codes().size(),
                w.candidates(),
                w.groups().size(),
                singles,
                last[0].solved(),
                matter);
    }

    private void check(Ranker.Weighed w, List<Group> quick, double floor, List<Group[]> likely) {
        AllPairs all = new AllPairs(w.predictor(), w.likelihood(), w.groups(), BEST, Double.NEGATIVE_INFINITY);
        List<AllPairs.Scored> found = all.search(likely);
        List<AllPairs.Scored> matter =
                new AllPairs(w.predictor(), w.likelihood(), w.groups(), BEST, floor).search(likely);
        List<PairOracle.Scored> best =
                new PairOracle(w.predictor(), w.likelihood()).best(w.groups(), BEST, share -> {});
        pairs += w.groups().size() * (w.groups().size() - 1L) / 2;
        Set<String> byQuick = new HashSet<>();
        quick.forEach(
                g -> byQuick.add(PairOracle.ids(g.parts().get(0), g.parts().get(1))));
        Set<String> byAll = new HashSet<>();
        found.forEach(s -> byAll.add(PairOracle.ids(s.a(), s.b())));
        Set<String> byMatter = new HashSet<>();
        matter.forEach(s -> byMatter.add(PairOracle.ids(s.a(), s.b())));
        int[] here = new int[4];
        for (PairOracle.Scored s : best) {
            if (!byQuick.contains(s.ids())) here[0]++;
            if (!byAll.contains(s.ids())) here[1]++;
            if (s.score() < floor) continue;
            if (!byQuick.contains(s.ids())) here[2]++;
            if (!byMatter.contains(s.ids())) here[3]++;
        }
        for (int k = 0; k < 4; k++) lost[k] += here[k];
        System.out.printf(
                Locale.ROOT,
                "case %d, %d groups: %d pairs solved; lost of the best %d: quick %d, all %d; that can matter: quick %d, all %d%n",
                cases,
                w.groups().size(),
                all.solved(),
                best.size(),
                here[0],
                here[1],
                here[2],
                here[3]);
    }
}
