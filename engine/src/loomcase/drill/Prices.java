package loomcase.drill;

import java.util.List;
import loomcase.casework.Bench;
import loomcase.intake.CaseIntake;
import loomcase.journal.Fact;
import loomcase.meter.Catalogue;
import loomcase.meter.Harm;
import loomcase.meter.Measurements;
import loomcase.meter.Test;
import loomcase.meter.TestFacts;
import loomcase.model.Circuit;
import loomcase.rank.Evidence;

/**
 * What each line of a run costs: tests as the list of usual measurements says, access as the circuit says, work as {@link
 * Repairs} says, reading codes as the list's first row.
 */
final class Prices {
    /** Codes cleared, engine run, codes read again after work. */
    static final double PROOF_MINUTES = Measurements.builtIn().row("M01").minutesTypical();

    private static final double CLEARING_MINUTES =
            Measurements.builtIn().row("M01").minutesLeast();

    /** What a bare probe saves over a breakout lead or a test pin (judgement). */
    static final double BARE_PROBE_SAVES = 3;

    private final Circuit circuit;
    private final Catalogue catalogue;
    private final Repairs repairs;
    private final Limits limits;

    Prices(Bench bench, Limits limits) {
        this.circuit = bench.circuit();
        this.catalogue = new Catalogue(circuit, bench.layout());
        this.repairs = new Repairs(circuit, bench.layout());
        this.limits = limits;
    }

    TestFacts facts(Test test) {
        return catalogue.facts(test);
    }

    /**
     * What a line took; the opening, the drill's own first lines and notes are free.
     *
     * @param faults what is wrong with the engine before it
     */
    Bill of(Fact fact, List<Planted> faults) {
        if (fact instanceof Fact.OpenedAccess o)
            return Bill.of(circuit.access().get(o.step()).minutes());
        if (fact instanceof Fact.Codes) return Bill.of(PROOF_MINUTES);
        if (fact instanceof Fact.Work w)
            return w.spot()
                    .map(s -> repairs.bill(w.deed(), s.place(), faults))
                    .orElseGet(() -> Bill.of(CLEARING_MINUTES));
        if (fact instanceof Fact.Note n && RunNote.isHint(n)) return Bill.of(limits.hintMinutes());
        return CaseIntake.tested(circuit, fact)
                .map(Evidence.Tested::test)
                .map(t -> test(t, fact))
                .orElse(Bill.FREE);
    }

    private Bill test(Test test, Fact fact) {
        TestFacts facts = catalogue.facts(test);
        boolean saved = facts.harms().contains(Harm.PROBES_FEMALE_CAVITY)
                && fact instanceof Fact.Reading r
                && Request.isBare(r.meter());
        return Bill.of(saved ? Math.max(1, facts.minutes() - BARE_PROBE_SAVES) : facts.minutes());
    }
}
