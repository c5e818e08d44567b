package loomcase.verdict;

import java.util.Optional;
import java.util.stream.IntStream;

/**
 * What the remedies of a verdict cost once the truth is known: E of the package's formula with all weight on the truth.
 *
 * <p>Rules are left out, for they speak of what may be done on the evidence at hand. Of several faults at once each is
 * counted with what follows when a remedy does not cure it, and the remedy's own bill is counted once.
 */
public final class Hindsight {
    private final Stakes stakes;
    private final Sequel sequel;
    private final int harness;
    private final int[] truths;

    /**
     * @param stakes remedies and causes, the true ones among them
     * @param harness number of the remedy that replaces the whole harness
     * @param truths numbers of the true causes
     */
    Hindsight(Stakes stakes, int harness, int... truths) {
        this.stakes = stakes;
        this.sequel = stakes.sequel();
        this.harness = harness;
        this.truths = truths.clone();
    }

    /** Id of a true cause, which stands beside the same hypothesis of the posterior. */
    static String id(int number) {
        return "truth " + number;
    }

    /**
     * What follows from doing one thing first.
     *
     * @param money expected cost until everything is right, in the circuit's currency
     * @param minutes expected minutes until everything is right: access, work, and where it does not cure a fresh diagnosis
     *     and the remedy that does; repairs that fail later are not in them
     * @param mends whether it cures all that is wrong at even odds or better
     */
    public record Outcome(double money, double minutes, boolean mends) {}

    /** What follows from a remedy of this situation; from doing nothing of use when it is empty. */
    public Outcome of(Optional<Remedy> remedy) {
        return remedy.map(r -> of(number(r.id()))).orElseGet(this::ofNothing);
    }

    Outcome of(int act) {
        double money = now(act);
        double minutes = minutes(stakes.acts().get(act).now());
        boolean mends = true;
        for (int h : truths) {
            double cures = stakes.acts().get(act).cures()[h];
            money += cost(act, h) - now(act);
            minutes += (1 - cures) * againMinutes(h);
            mends &= cures >= 0.5;
        }
        return new Outcome(money, minutes, mends);
    }

    private Outcome ofNothing() {
        double money = 0;
        double minutes = 0;
        for (int h : truths) {
            money += sequel.notCured(h, -1);
            minutes += againMinutes(h);
        }
        return new Outcome(money, minutes, false);
    }

    /**
     * Whether the truth calls for the whole harness: replacing it costs less than mending every fault by the cheapest remedy
     * smaller than that.
     */
    public boolean harnessNeeded() {
        double whole = now(harness);
        double smaller = 0;
        for (int h : truths) {
            whole += cost(harness, h) - now(harness);
            smaller += IntStream.range(0, stakes.acts().size())
                    .filter(a -> a != harness)
                    .mapToDouble(a -> cost(a, h))
                    .min()
                    .orElse(Double.POSITIVE_INFINITY);
        }
        return whole < smaller;
    }

    private int number(String id) {
        for (int a = 0; a < stakes.acts().size(); a++)
            if (stakes.acts().get(a).id().equals(id)) return a;
        throw new IllegalArgumentException("no remedy " + id + " in this situation");
    }

    private double now(int act) {
        return stakes.money(stakes.acts().get(act).now());
    }

    private double cost(int act, int truth) {
        double[] certain = new double[stakes.weight().length];
        certain[truth] = 1;
        return stakes.weighing(certain).expected(act, sequel).total();
    }

    private double againMinutes(int truth) {
        int cure = sequel.best()[truth];
        return cure < 0
                ? stakes.outsideMinutes()
                : stakes.diagnosisMinutes() + minutes(stakes.acts().get(cure).again());
    }

    private static double minutes(Stakes.Bill bill) {
        return bill.accessMinutes() + bill.workMinutes();
    }
}
