package loomcase.casework;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import loomcase.intake.CaseIntake;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import loomcase.meter.Outcome;
import loomcase.meter.Outcomes;
import loomcase.meter.Test;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Finding;
import loomcase.model.PlaceId;
import loomcase.policy.Policy;
import loomcase.policy.RemedyOutcome;
import loomcase.rank.Evidence;
import loomcase.verdict.Rates;
import loomcase.verdict.RepairCosts;
import loomcase.verdict.Rulings;
import loomcase.verdict.Sighting;
import loomcase.verdict.Situation;
import loomcase.verdict.VerdictMaker;

/**
 * What a shop says about money when it asks for a verdict; everything else stands in the circuit file.
 *
 * @param repairCosts file of the shop's own minutes and rates of success (CSV), empty for the built-in ones
 * @param labourPerHour labour rate in the circuit file's currency, empty for the circuit file's
 * @param downtimePerHour price of an hour of standing still, empty for the circuit file's
 */
public record Advice(Optional<Path> repairCosts, OptionalDouble labourPerHour, OptionalDouble downtimePerHour) {
    /** All as the circuit file and the built-in figures say. */
    public static final Advice USUAL = new Advice(Optional.empty(), OptionalDouble.empty(), OptionalDouble.empty());

    /** Rates in force for a circuit. */
    public Rates rates(Circuit circuit) {
        Rates own = VerdictMaker.rates(circuit);
        return new Rates(labourPerHour.orElse(own.labourPerHour()), downtimePerHour.orElse(own.downtimePerHour()));
    }

    /**
     * Figures in force.
     *
     * @throws loomcase.InputProblem when the shop's file cannot be used
     */
    public RepairCosts figures() {
        return repairCosts.map(RepairCosts.builtIn()::with).orElseGet(RepairCosts::builtIn);
    }

    /** The repair rules of a policy. */
    static Rulings.Rules rules(Policy policy) {
        return (evidence, remedies) -> {
            RemedyOutcome said = policy.remedies(evidence, remedies);
            return new Rulings(said.rulings(), said.shopPolicyDiffers());
        };
    }

    /** A case as the verdict sees it. */
    public static Situation situation(Circuit circuit, CaseIntake intake, loomcase.rank.Ranking ranking) {
        List<Evidence.Tested> tested = intake.intake().evidence().tested();
        int readings = (int)
                tested.stream().filter(t -> t.test() instanceof Test.Numeric).count();
        int looks =
                (int) tested.stream().filter(t -> t.test() instanceof Test.Look).count();
        return new Situation(
                ranking,
                intake.openAccess(),
                intake.looked().stream()
                        .filter(s -> s.finding() != Finding.CLEAN)
                        .map(s -> sighting(circuit, s))
                        .toList(),
                intake.repaired(),
                intake.intake().evidence().work().jobs(),
                tested.stream().flatMap(t -> shown(circuit, t)).collect(Collectors.toSet()),
                readings,
                tested.size() - readings - looks,
                looks);
    }

    /** The place of a condition that a gauge has shown to be there, or those of a battery that was read at its posts. */
    private static Stream<PlaceId> shown(Circuit circuit, Evidence.Tested tested) {
        if (tested.outcome() instanceof Outcome.Condition c && !c.equals(Outcome.Condition.HEALTHY))
            return Stream.of(new PlaceId(PlaceId.Kind.ENGINE, c.id()));
        if (!(tested.test() instanceof Test.Volts volts)) return Stream.empty();
        return circuit.batteries().stream()
                .filter(d -> d.terminals().containsValue(volts.pointA()))
                .flatMap(d -> d.conditions().stream())
                .map(c -> new PlaceId(PlaceId.Kind.ENGINE, c.id()));
    }

    private static Sighting sighting(Circuit circuit, Fact.Seen seen) {
        return new Sighting(
                seen.spot().place(),
                metres(circuit, seen.spot()),
                seen.finding().word());
    }

    private static OptionalDouble metres(Circuit circuit, Spot spot) {
        return spot.rubPoint().stream()
                .flatMap(id -> circuit.branches().get(spot.place().id()).rubPoints().stream()
                        .filter(r -> r.id().equals(id)))
                .mapToDouble(Branch.RubPoint::metresAlong)
                .findFirst();
    }

    /** Probabilities alone, for the value of a test. */
    static List<List<Double>> given(List<Outcomes.Likely> outcomes) {
        return outcomes.stream().map(Outcomes.Likely::given).toList();
    }
}
