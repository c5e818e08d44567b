package loomcase.rank;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import loomcase.faults.Hypothesis;
import loomcase.meter.Subject;
import loomcase.model.Edit;
import loomcase.model.PlaceId;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;

/**
 * Two independent faults at once.
 *
 * <p>A pair can only beat its better half when the other half explains something that the better one leaves. So pairs are
 * formed between groups that each raise some code seen; a half that raises none adds only its small prior and is left out.
 * All such pairs are scored with {@code q = 1 − (1 − q_a)(1 − q_b)}, and with the tests made as if a test that both move
 * were moved by the one that moves it most; the best {@value #SOLVED} are then solved jointly with the leading member of
 * each group, tests included, and scored again.
 *
 * <p><b>Exact:</b> the joint solution and likelihood of the pairs shown. <b>Bounded:</b> {@link #search} chooses by the
 * combination rule which pairs are solved, so it can miss a pair that explains the codes only jointly; {@link #all} adds
 * every pair among the best {@value #KEPT} that has a share of {@value #MATTERS} or more of the posterior by the codes,
 * with {@link AllPairs}, which takes thousands of joint solves for it. Cost of the quick search: groups
 * squared, over the few codes each touches.
 */
final class PairSearch {
    /** By how much a probability must exceed a healthy engine's for the code to count as raised. */
    private static final double RAISED = 0.05;

    /** Natural logarithm that a second fault adds to the fit where it explains something that the first leaves. */
    private static final double EXPLAINS = 1;

    private static final int SOLVED = 48;
    private static final int MOST_GROUPS = 400;
    private static final int KEPT = 20;

    /** Share of the posterior below which a pair does not matter; no suspect below it is listed either. */
    private static final double MATTERS = 1e-4;

    private final Predictor predictor;
    private final Likelihood likelihood;
    private final TestLikelihood tests;

    PairSearch(Predictor predictor, Likelihood likelihood, TestLikelihood tests) {
        this.predictor = predictor;
        this.likelihood = likelihood;
        this.tests = tests;
    }

    /** Natural logarithm behind the likeliest suspect from which no fault is looked for beside one. */
    private static final double FAR_BEHIND = Math.log(1000);

    private record Rough(Group a, Group b, double score) {}

    List<Group> search(List<Group> singles) {
        List<Group> useful = singles.stream()
                .filter(g -> likelihood.raisesSeen(RAISED, g.leader().prediction()))
                .sorted(Comparator.comparingDouble(g -> -g.logScore()))
                .limit(MOST_GROUPS)
                .toList();
        List<Rough> rough = new ArrayList<>();
        for (int i = 0; i < useful.size(); i++)
            for (int j = i + 1; j < useful.size(); j++) {
                Group a = useful.get(i);
                Group b = useful.get(j);
                double fit = fit(a, b);
                double better = Math.max(a.leader().logFit(), b.leader().logFit());
                if (fit > better + EXPLAINS) rough.add(new Rough(a, b, a.logPriorMass() + b.logPriorMass() + fit));
            }
        rough.sort(Comparator.comparingDouble((Rough r) -> -r.score)
                .thenComparing(r -> r.a.leader().hypothesis().id()
                        + r.b.leader().hypothesis().id()));
        List<Rough> best = rough.stream().limit(SOLVED).toList();
        predictor.prepare(
                best.stream().map(r -> both(r.a.leader(), r.b.leader()).edits()).toList());
        return best.stream().map(r -> solve(r.a, r.b)).toList();
    }

    /** The same pairs, and with them every one that is among the best and matters, see {@link AllPairs}. */
    List<Group> all(List<Group> singles) {
        List<Group> out = new ArrayList<>(search(singles));
        double total = Double.NEGATIVE_INFINITY;
        for (Group g : singles) total = Likelihood.logSum(total, g.logScore());
        for (Group g : out) total = Likelihood.logSum(total, g.logScore());
        List<Group[]> likely =
                out.stream().map(g -> g.parts().toArray(new Group[0])).toList();
        Set<Set<Group>> known = new HashSet<>();
        out.forEach(g -> known.add(Set.copyOf(g.parts())));
        new AllPairs(predictor, likelihood, singles, KEPT, total + Math.log(MATTERS))
                .search(likely).stream()
                        .filter(s -> known.add(Set.of(s.a(), s.b())))
                        .forEach(s -> out.add(solve(s.a(), s.b())));
        return out;
    }

    /**
     * Log odds that beside a suspect there is one more lasting fault that would show a code by itself and adds none to what
     * was seen: its code was missed, or the suspect shows the same one.
     *
     * <p>Such pairs are each too small to be listed and too many to be solved: thousands of them together have a share of
     * a few hundredths. <b>Bounded:</b> by the combination rule, over the suspects that have a thousandth of the likeliest or
     * more; a fault that the suspect cuts off from the control unit is left out, so it is rather too little.
     *
     * @param singles groups that the fault may be of
     * @param suspects the same with the pairs that were solved, likeliest first
     */
    double logHidden(List<Group> singles, List<Group> suspects) {
        List<Group> near = suspects.stream()
                .filter(g -> g.logScore() > suspects.get(0).logScore() - FAR_BEHIND)
                .filter(this::shows)
                .toList();
        List<Group> others = singles.stream().filter(this::shows).toList();
        double[] odds = others.stream().mapToDouble(Group::logLastingMass).toArray();
        Set<Group> before = new HashSet<>();
        double sum = Double.NEGATIVE_INFINITY;
        for (Group a : near) {
            Set<Group> counted = new HashSet<>(before);
            counted.add(a);
            counted.addAll(a.parts());
            for (Group pair : suspects) if (pair.parts().contains(a)) counted.addAll(pair.parts());
            double alone = combined(a.leader().prediction(), Prediction.NONE)
                    + Arrays.stream(a.leader().logTests()).sum();
            for (int i = 0; i < odds.length; i++) {
                if (counted.contains(others.get(i))) continue;
                double added = fit(a, others.get(i)) - alone;
                if (added <= EXPLAINS) sum = Likelihood.logSum(sum, a.logScore() + odds[i] + added);
            }
            if (a.parts().isEmpty()) before.add(a);
        }
        return sum;
    }

    /** True when a suspect by itself would rather show a code than not. */
    private boolean shows(Group g) {
        return likelihood.someOwn(
                        g.leader().prediction(), g.leader().hypothesis().comesAndGoes())
                > 0.5;
    }

    /** Log fit of two faults by the combination rule, codes and tests. */
    private double fit(Group a, Group b) {
        Candidate x = a.leader();
        Candidate y = b.leader();
        return combined(x.prediction(), y.prediction()) + tested(x.logTests(), y.logTests());
    }

    /** Two faults as a test sees them. */
    static Subject both(Candidate x, Candidate y) {
        return Subject.both(x.hypothesis().id(), x.subject(), y.hypothesis().id(), y.subject());
    }

    private Group solve(Group a, Group b) {
        Candidate x = a.leader();
        Candidate y = b.leader();
        Subject subject = both(x, y);
        List<Edit> edits = subject.edits();
        Prediction joint = predictor.predict(edits);
        List<PlaceId> places = new ArrayList<>(x.places());
        places.addAll(y.places());
        Hypothesis both = new Hypothesis(
                x.hypothesis().id() + " + " + y.hypothesis().id(),
                subject.family(),
                places,
                Ranking.twoFaults(x.words(), y.words()),
                new Hypothesis.Fixed(edits),
                x.hypothesis().probability() * y.hypothesis().probability(),
                false);
        Candidate pair = new Candidate(
                        both,
                        both.words(),
                        places,
                        edits,
                        joint,
                        x.logPrior() + y.logPrior(),
                        likelihood.ratio(joint, false) + present(x) + present(y))
                .of(subject);
        return Group.pair(a, b, pair.withTests(tests.logs(pair)));
    }

    /** Of a fault that comes and goes only that counts which is there while codes are read. */
    private double present(Candidate c) {
        return c.hypothesis().comesAndGoes() ? likelihood.logPresent() : 0;
    }

    /** Logarithms of likelihood ratios of tests that two faults give, each alone, as those of both. */
    static double tested(double[] a, double[] b) {
        double sum = 0;
        for (int t = 0; t < a.length; t++) {
            boolean alike = a[t] > 0 == b[t] > 0;
            sum += alike ? Math.abs(a[t]) > Math.abs(b[t]) ? a[t] : b[t] : a[t] + b[t];
        }
        return sum;
    }

    private double combined(Prediction a, Prediction b) {
        double sum = 0;
        int i = 0;
        int j = 0;
        while (i < a.codes().length || j < b.codes().length) {
            int ca = i < a.codes().length ? a.codes()[i] : Integer.MAX_VALUE;
            int cb = j < b.codes().length ? b.codes()[j] : Integer.MAX_VALUE;
            int c = Math.min(ca, cb);
            double none = 1;
            if (ca == c) none *= 1 - a.probability()[i++];
            if (cb == c) none *= 1 - b.probability()[j++];
            sum += likelihood.logLasting(c, 1 - none);
        }
        return sum;
    }
}
