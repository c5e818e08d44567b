package loomcase.fit;

import java.util.ArrayList;
import java.util.List;
import loomcase.policy.PolicyOutcome;

/**
 * The whole answer: the comparison, and for each plug whose terminals move what each slip would lead to.
 *
 * @param fit the comparison
 * @param operatingPoints operating points at which the slips were looked at
 * @param plugs one for each transfer of {@code fit}, same order; none for a harness that does not fit anyway
 */
public record FitReport(FitResult fit, List<String> operatingPoints, List<PlugReport> plugs) {

    /**
     * One transfer with its checks and slips.
     *
     * @param checks continuity check of each handled cavity that has one
     * @param unchecked handled cavities, {@code CONNECTOR/CAVITY}, whose circuit ends at nothing that a lead can touch
     * @param slips every single slip
     */
    public record PlugReport(Transfer transfer, List<Slip.Check> checks, List<String> unchecked, List<Slip> slips) {
        public PlugReport {
            checks = List.copyOf(checks);
            unchecked = List.copyOf(unchecked);
            slips = List.copyOf(slips);
        }

        /** How many slips show in this way. */
        public long count(Slip.Effect effect) {
            return slips.stream().filter(s -> s.effect() == effect).count();
        }

        /** Slips that show no code although something is wrong, swaps first. */
        public List<Slip> silent() {
            return slips.stream().filter(s -> s.effect() == Slip.Effect.SILENT).toList();
        }

        /** Slips that may damage something. */
        public List<Slip> harmful() {
            return slips.stream().filter(s -> !s.damage().isEmpty()).toList();
        }
    }

    public FitReport {
        operatingPoints = List.copyOf(operatingPoints);
        plugs = List.copyOf(plugs);
    }

    /**
     * Works out the slips of every transfer.
     *
     * @param policy what the rules conclude for the old circuit
     */
    public static FitReport of(FitResult fit, PolicyOutcome policy) {
        if (fit.transfers().isEmpty() || fit.verdict() == FitResult.Verdict.DOES_NOT_FIT)
            return new FitReport(fit, List.of(), List.of());
        Slips slips = new Slips(fit, policy);
        List<PlugReport> plugs = new ArrayList<>();
        for (Transfer t : fit.transfers()) {
            List<Slip.Check> checks = new ArrayList<>();
            List<String> unchecked = new ArrayList<>();
            for (String c : t.handled()) {
                String cavity = t.plug() + "/" + c;
                slips.check(cavity).ifPresentOrElse(checks::add, () -> unchecked.add(cavity));
            }
            plugs.add(new PlugReport(t, checks, unchecked, slips.of(t)));
        }
        return new FitReport(fit, slips.operatingPoints(), plugs);
    }
}
