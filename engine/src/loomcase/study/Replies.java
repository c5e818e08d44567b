package loomcase.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.TreeSet;
import loomcase.casework.Bench;
import loomcase.drill.Engine;
import loomcase.drill.Showing;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.j1939.Code;
import loomcase.meter.Outcome;
import loomcase.meter.Setup;
import loomcase.meter.Test;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.OperatingPoint;
import loomcase.rank.Evidence;
import loomcase.solve.Solution;

/**
 * What a test shows in a case, the same whichever way of working asks for it.
 *
 * <p>From the world of the study: readings are those of the network with every part off by its factor, read with the error
 * of a meter; codes watched are those of the case's own control unit, with its own limits, misses and FMIs. A fault that
 * comes and goes is there during a test with probability {@value CaseDraw#PRESENT}. From our own model: the network of a
 * meter reading is our solver's, not ngspice's; and how often an eye, a wiggle or a swap notices a fault is drawn from the
 * very shares that planning reckons with, so a study says nothing about those shares.
 */
final class Replies {
    private final Circuit circuit;
    private final CaseDraw draw;
    private final ControlUnitLogic unit;
    private final Truth truth;
    private final Engine engine;

    Replies(Bench bench, CaseDraw draw, ControlUnitLogic unit, Truth truth) {
        this.circuit = bench.circuit();
        this.draw = draw;
        this.unit = unit;
        this.truth = truth;
        Hypothesis any = new FaultGenerator(circuit, bench.layout(), bench.priors())
                .generate()
                .get(0);
        this.engine = new Engine(bench, new loomcase.drill.Truth(0, faults(List.of(any)), List.of()));
    }

    private static List<loomcase.drill.Truth.Fault> faults(List<Hypothesis> truth) {
        return truth.stream().map(loomcase.drill.Truth.Fault::of).toList();
    }

    /**
     * The reply to a test.
     *
     * @param left faults of the case that are still there
     */
    Outcome to(Test test, Cases.Case one, List<loomcase.drill.Planted> left) {
        SplittableRandom random = new SplittableRandom(31L * test.id().hashCode()
                + 1_000_003L * one.number()
                + one.planted().kind().ordinal());
        if (test instanceof Test.Watched w) return codes(w, one, there(left, random), random);
        if (test instanceof Test.Numeric n) {
            List<Edit> edits = draw.edits(one.planted(), there(left, random), point(n.setup()));
            return at(one).answer(
                            test,
                            List.of(new loomcase.drill.Planted("world", "", "", List.of(), edits, Showing.ALWAYS)),
                            0);
        }
        return at(one).answer(test, left, 0);
    }

    private Engine at(Cases.Case one) {
        long seed = one.number() * 10L + one.planted().kind().ordinal();
        return engine.with(new loomcase.drill.Truth(seed, faults(one.planted().truth()), List.of()));
    }

    private static List<loomcase.drill.Planted> there(List<loomcase.drill.Planted> left, SplittableRandom random) {
        List<loomcase.drill.Planted> out = new ArrayList<>();
        for (loomcase.drill.Planted p : left)
            if (p.showing() == Showing.ALWAYS || random.nextDouble() < CaseDraw.PRESENT) out.add(p);
        return out;
    }

    /** With the key off the first operating point stands for the state of the parts. */
    private OperatingPoint point(Setup setup) {
        return setup.power() instanceof Setup.KeyOn on
                ? circuit.operatingPoints().get(on.operatingPoint())
                : circuit.operatingPoints().values().iterator().next();
    }

    /**
     * The check run after a repair, codes cleared before it.
     *
     * @param left faults of the case that are still there
     * @param points ids of the operating points that it goes through
     * @param repairs made so far
     * @return codes that are there, none where nothing shows
     */
    List<Evidence.Seen> checkRun(Cases.Case one, List<loomcase.drill.Planted> left, List<String> points, int repairs) {
        SplittableRandom random = new SplittableRandom(7_368_787L * repairs
                + 1_000_003L * one.number()
                + one.planted().kind().ordinal());
        List<loomcase.drill.Planted> there = there(left, random);
        TreeSet<Code> shown = new TreeSet<>();
        for (String id : points) {
            OperatingPoint at = circuit.operatingPoints().get(id);
            shown.addAll(shown(at, draw.edits(one.planted(), there, at), one, random));
        }
        return shown.stream()
                .map(c -> new Evidence.Seen(c, Evidence.State.ACTIVE, OptionalInt.empty()))
                .toList();
    }

    private Outcome codes(
            Test.Watched test, Cases.Case one, List<loomcase.drill.Planted> there, SplittableRandom random) {
        OperatingPoint at = point(test.setup());
        List<Edit> edits = test.setup().over(circuit, draw.edits(one.planted(), there, at));
        TreeSet<Code> shown = shown(at, edits, one, random);
        return new Outcome.CodesActive(
                test.codes().stream().filter(shown::contains).toList());
    }

    private TreeSet<Code> shown(OperatingPoint at, List<Edit> edits, Cases.Case one, SplittableRandom random) {
        Optional<Map<String, Solution>> solved = truth.solve(at, List.of(edits)).get(0);
        return solved.map(phases -> unit.shown(at, phases, one.limits(), random))
                .orElseGet(TreeSet::new);
    }
}
