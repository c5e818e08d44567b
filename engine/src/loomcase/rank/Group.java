package loomcase.rank;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
        Index index = new Index();
        for (Candidate c : sorted) {
            Group home = null;
            for (Group g : index.near(c.prediction()))
                if (alike(g.leader().prediction(), c.prediction())
                        && alike(g.leader().logTests(), c.logTests())) {
                    home = g;
                    break;
                }
            if (home == null) {
                home = new Group(List.of());
                home.add(c);
                index.add(home);
            } else home.add(c);
        }
        return index.groups;
    }

    /**
     * Groups by the codes that their leaders may show, so that a candidate is compared with few.
     *
     * <p>A leader alike shows the candidate's likeliest code with at most {@value #TOLERANCE} less, so when that code has
     * more than this probability the leader shows it too; otherwise the leader shows nothing with more than twice this.
     * Both lists keep the order of the groups, so the first one alike is the same as among all.
     */
    private static final class Index {
        private final List<Group> groups = new ArrayList<>();
        private final Map<Integer, List<Group>> showing = new HashMap<>();
        private final List<Group> faint = new ArrayList<>();

        /** Groups among which any that is alike lies, in order. */
        List<Group> near(Prediction p) {
            int strongest = strongest(p);
            if (strongest < 0 || p.probability()[strongest] <= TOLERANCE) return faint;
            return showing.getOrDefault(p.codes()[strongest], List.of());
        }

        void add(Group g) {
            groups.add(g);
            Prediction p = g.leader().prediction();
            for (int k = 0; k < p.codes().length; k++)
                if (p.probability()[k] > 0)
                    showing.computeIfAbsent(p.codes()[k], c -> new ArrayList<>())
                            .add(g);
            int strongest = strongest(p);
            // A little more than twice, for sums of floating-point numbers.
            if (strongest < 0 || p.probability()[strongest] <= 2 * TOLERANCE + 1e-9) faint.add(g);
        }

        private static int strongest(Prediction p) {
            int best = -1;
            for (int k = 0; k < p.codes().length; k++)
                if (best < 0 || p.probability()[k] > p.probability()[best]) best = k;
            return best;
        }
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

    /** The same of those that do not come and go. */
    double logLastingMass() {
        double sum = Double.NEGATIVE_INFINITY;
        for (Candidate c : members) if (!c.hypothesis().comesAndGoes()) sum = Likelihood.logSum(sum, c.logPrior());
        return sum;
    }
}
