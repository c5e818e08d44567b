package loomcase.rank;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import loomcase.predict.Prediction;

/** Candidates whose predictions differ by too little for any available evidence to tell them apart. */
final class Group {
    /** Largest difference of any code's probability within a group. */
    static final double TOLERANCE = 0.1;

    /** Natural logarithm of the likelihood ratio from which a test has told two candidates apart. */
    static final double TOLD_APART = Math.log(3);

    private final List<Candidate> members = new ArrayList<>();
    private final List<Group> parts;
    private double logPriorMass = Double.NEGATIVE_INFINITY;
    private double logScore = Double.NEGATIVE_INFINITY;

    private Group(List<Group> parts) {
        this.parts = parts;
    }

    /** Groups candidates around leaders, best first. */
    static List<Group> of(List<Candidate> candidates) {
        List<Candidate> sorted = new ArrayList<>(candidates);
        sorted.sort(Comparator.comparingDouble((Candidate c) -> -c.logScore())
                .thenComparing(c -> c.hypothesis().id()));
        List<Group> groups = new ArrayList<>();
        for (Candidate c : sorted) {
            Group home = null;
            for (Group g : groups)
                if (alike(g.leader().prediction(), c.prediction())
                        && alike(g.leader().logTests(), c.logTests())) {
                    home = g;
                    break;
                }
            if (home == null) {
                home = new Group(List.of());
                groups.add(home);
            }
            home.add(c);
        }
        return groups;
    }

    /** A group that takes one fault of each of two groups, solved jointly as {@code joint}. */
    static Group pair(Group a, Group b, Candidate joint) {
        Group g = new Group(List.of(a, b));
        g.members.add(joint);
        g.logPriorMass = a.logPriorMass + b.logPriorMass;
        g.logScore = g.logPriorMass + joint.logFit();
        return g;
    }

    private void add(Candidate c) {
        members.add(c);
        logPriorMass = Likelihood.logSum(logPriorMass, c.logPrior());
        logScore = Likelihood.logSum(logScore, c.logScore());
    }

    /** True when no test made has told the two apart. */
    private static boolean alike(double[] a, double[] b) {
        for (int i = 0; i < Math.min(a.length, b.length); i++) if (Math.abs(a[i] - b[i]) > TOLD_APART) return false;
        return true;
    }

    static boolean alike(Prediction a, Prediction b) {
        int i = 0;
        int j = 0;
        while (i < a.codes().length || j < b.codes().length) {
            int ca = i < a.codes().length ? a.codes()[i] : Integer.MAX_VALUE;
            int cb = j < b.codes().length ? b.codes()[j] : Integer.MAX_VALUE;
            double pa = ca <= cb ? a.probability()[i++] : 0;
            double pb = cb <= ca ? b.probability()[j++] : 0;
            if (Math.abs(pa - pb) > TOLERANCE) return false;
        }
        return true;
    }

    Candidate leader() {
        return members.get(0);
    }

    List<Candidate> members() {
        return members;
    }

    /** The two groups a pair takes its faults from; empty for a single fault. */
    List<Group> parts() {
        return parts;
    }

    double logScore() {
        return logScore;
    }

    double logPriorMass() {
        return logPriorMass;
    }
}
