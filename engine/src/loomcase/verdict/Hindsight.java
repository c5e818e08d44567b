package loomcase.verdict;

import java.util.Optional;

/**
 * What the remedies of a verdict cost once the truth is known: E of the package's formula with all weight on the truth.
 *
 * <p>Rules are left out, for they speak of what may be done on the evidence at hand; what they leave where everything is
 * known is asked by {@link HarnessNeed}. Of several faults at once each is counted for itself, and the remedy's own bill
 * once.
 */
public final class Hindsight {
    private final Stakes stakes;
    private final Sequel sequel;
    private final Remedy harness;
    private final int[] truths;

    /**
     * @param stakes remedies and causes, the true ones among them
     * @param harness the remedy of this situation that replaces the whole harness
     * @param truths numbers of the true causes
     */
    Hindsight(Stakes stakes, Remedy harness, int... truths) {
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
     * What follows from doing one thing.
     *
     * @param money expected cost, in the circuit's currency
     * @param minutes expected minutes: access, work, and where it does not cure what follows; repairs that fail later are not
     *     in them
     */
    public record Outcome(double money, double minutes) {
        /** Both, one after the other. */
        public Outcome then(Outcome other) {
            return new Outcome(money + other.money, minutes + other.minutes);
        }
    }

    /** The remedy of this situation that replaces the whole harness. */
    public Remedy harness() {
        return harness;
    }

    /** Which of the true causes a remedy of this situation cures at even odds or better, in the order in which they were given. */
    public boolean[] cured(Optional<Remedy> remedy) {
        boolean[] out = new boolean[truths.length];
        if (remedy.isEmpty()) return out;
        double[] cures = stakes.acts().get(number(remedy.get().id())).cures();
        for (int i = 0; i < out.length; i++) out[i] = cures[truths[i]] >= 0.5;
        return out;
    }

    /**
     * What follows from a remedy of this situation, until everything is right, for the causes that it {@link #cured}; what
     * the others take is not in it.
     */
    public Outcome of(Remedy remedy) {
        return of(number(remedy.id()));
    }

    Outcome of(int act) {
        double money = now(act);
        double minutes = minutes(stakes.acts().get(act).now());
        for (int h : truths) {
            double cures = stakes.acts().get(act).cures()[h];
            if (cures < 0.5) continue;
            money += stakes.given(act, h, sequel) - now(act);
            minutes += (1 - cures) * againMinutes(h);
        }
        return new Outcome(money, minutes);
    }

    /**
     * A comeback that ends with the whole harness, for what the rules let nobody mend by less: as {@link #comeback}, but one
     * harness for all that it cures.
     *
     * @param cured which true causes are cured already, in the order in which they were given
     */
    public Outcome comebackForHarness(boolean[] cured) {
        boolean[] then = cured(Optional.of(harness));
        boolean others = false;
        for (int i = 0; i < then.length; i++) {
            then[i] |= cured[i];
            others |= !then[i];
        }
        Stakes.Bill whole = stakes.acts().get(number(harness.id())).again();
        Outcome fitted = new Outcome(stakes.money(whole), minutes(whole));
        // What is left beside it has its diagnosis and standing still in its own comeback.
        return fitted.then(
                others
                        ? comeback(then)
                        : new Outcome(stakes.comebackOverhead(), stakes.after().diagnosisMinutes()));
    }

    /**
     * A comeback: a fresh diagnosis, standing still, and the right remedy for each cause that is left.
     *
     * @param cured which true causes are cured already, in the order in which they were given
     */
    public Outcome comeback(boolean[] cured) {
        double money = 0;
        double minutes = 0;
        for (int i = 0; i < truths.length; i++) {
            if (cured[i]) continue;
            boolean first = money == 0;
            money += sequel.notCured(truths[i], -1) - (first ? 0 : stakes.comebackOverhead());
            minutes += againMinutes(truths[i]) - (first ? 0 : stakes.after().diagnosisMinutes());
        }
        return new Outcome(money, minutes);
    }

    private int number(String id) {
        for (int a = 0; a < stakes.acts().size(); a++)
            if (stakes.acts().get(a).id().equals(id)) return a;
        throw new IllegalArgumentException("no remedy " + id + " in this situation");
    }

    private double now(int act) {
        return stakes.money(stakes.acts().get(act).now());
    }

    private double againMinutes(int truth) {
        int cure = sequel.best()[truth];
        if (cure < 0) return stakes.after().outsideMinutes();
        return stakes.after().diagnosisMinutes()
                + minutes(stakes.acts().get(cure).again());
    }

    private static double minutes(Stakes.Bill bill) {
        return bill.accessMinutes() + bill.workMinutes();
    }
}
