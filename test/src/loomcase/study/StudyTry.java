package loomcase.study;

import java.nio.file.Path;
import java.util.List;
import loomcase.faults.Priors;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CircuitFacts;
import loomcase.rank.Ranker;

public final class StudyTry {
    public static void main(String[] a) {
        Circuit c = CircuitReader.read(Path.of(a[0]));
        Layout layout = new Layout(c);
        PolicyOutcome policy = Policy.builtIn().decide(CircuitFacts.codes(c), CircuitFacts.places(c));
        Ranker r = new Ranker(c, Priors.builtIn(), policy);
        Study s = new Study(c, layout, Priors.builtIn(), policy, r, List.of("key-on", "idle-warm"), World.USUAL, 1);
        for (Planted.Kind k : Planted.Kind.values()) {
            if (a.length > 2 && !k.name().equals(a[2])) continue;
            long t = System.nanoTime();
            Study.Outcome o = s.run(k, Integer.parseInt(a[1]), x -> {});
            List<Score> x = o.scores();
            System.out.printf(
                    "%s n=%d top1 %.3f top3 %.3f place1 %.3f place3 %.3f behindSensor %.3f logloss %.2f brier %.2f ece %.3f silent %d unsolved %d ngspice %d  %.0f s%n",
                    k, x.size(), share(x, 1, true), share(x, 3, true), share(x, 1, false), share(x, 3, false),
                    x.stream().mapToDouble(q -> q.behindSensor() ? 1 : 0).average().orElse(0),
                    x.stream().mapToDouble(Score::logLoss).average().orElse(0),
                    x.stream().mapToDouble(Score::brier).average().orElse(0),
                    Score.calibrationError(x), o.silent(), o.unsolved(), o.simulated(), (System.nanoTime() - t) / 1e9);
            for (Score.Bin b : Score.bins(x)) if (b.count() > 0) System.out.printf("   %d stated %.2f right %.2f%n", b.count(), b.stated(), b.right());
        }
    }
    private static double share(List<Score> s, int k, boolean g) {
        return s.stream().mapToDouble(q -> { int r = g ? q.groupRank() : q.placeRank(); return r > 0 && r <= k ? 1 : 0; }).average().orElse(0);
    }
}
