package loomcase.meter;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import loomcase.InputProblem;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;

/**
 * Which codes are active after a plug is taken apart, with or without a jumper in it: the codes that the network with
 * fault and setup together would show. Codes are taken to come independently of one another given the fault; those nearly
 * sure either way are rounded, so at most {@value #MOST_OPEN} codes are left open.
 */
final class WatchPrediction {
    private static final double SURE = 0.02;
    private static final int MOST_OPEN = 5;

    private final Circuit circuit;
    private final CodeTable table;
    private final Observations observations;
    private final Function<String, Predictor> predicting;
    private final Map<String, Predictor> predictors = new HashMap<>();

    /** @param predicting predicts codes at an operating point of the circuit */
    WatchPrediction(
            Circuit circuit, CodeTable table, Observations observations, Function<String, Predictor> predicting) {
        this.predicting = predicting;
        this.circuit = circuit;
        this.table = table;
        this.observations = observations;
    }

    /** Has the dictionary keep what was solved, for the next command about the same complaint. */
    void keep() {
        predictors.values().forEach(Predictor::keep);
    }

    /** Has the networks of many faults under each of many tests solved at once, on all cores. */
    void prepare(List<Test.Watched> tests, List<List<Edit>> faults) {
        Map<Predictor, List<List<Edit>>> networks = new LinkedHashMap<>();
        for (Test.Watched test : tests) {
            List<List<Edit>> here = networks.computeIfAbsent(predictor(test), k -> new ArrayList<>());
            for (List<Edit> f : faults) here.add(together(test, f));
        }
        networks.forEach(Predictor::prepare);
    }

    /** Fault and setup. */
    private List<Edit> together(Test.Watched test, List<Edit> edits) {
        return test.setup().over(circuit, edits);
    }

    Distribution predict(Test.Watched test, List<Edit> edits) {
        Predictor predictor = predictor(test);
        Prediction p = predictor.predict(together(test, edits));
        double[] healthy = predictor.healthy();
        List<Double> q = test.codes().stream()
                .map(c -> table.index(c) < 0 ? 0.0 : p.of(table.index(c), healthy[table.index(c)]))
                .toList();
        return new Distribution(
                combinations(test.codes(), q), observations.get("outlier.watch"), 1 << Math.min(10, q.size()));
    }

    private Predictor predictor(Test.Watched test) {
        String operatingPoint = test.operatingPoint();
        if (!circuit.operatingPoints().containsKey(operatingPoint))
            throw new InputProblem("the circuit has no operating point '" + operatingPoint + "'; it has "
                    + String.join(", ", circuit.operatingPoints().keySet()));
        return predictors.computeIfAbsent(operatingPoint, predicting).forCodes(test.codes());
    }

    private static List<Distribution.Part> combinations(List<Code> codes, List<Double> q) {
        List<Code> sure = new ArrayList<>();
        List<Integer> open = new ArrayList<>();
        for (int c = 0; c < q.size(); c++)
            if (q.get(c) > 1 - SURE) sure.add(codes.get(c));
            else if (q.get(c) > SURE) open.add(c);
        open.sort(java.util.Comparator.comparingDouble(c -> Math.abs(q.get(c) - 0.5)));
        while (open.size() > MOST_OPEN) {
            int c = open.remove(open.size() - 1);
            if (q.get(c) > 0.5) sure.add(codes.get(c));
        }
        List<Distribution.Part> out = new ArrayList<>();
        for (int mask = 0; mask < 1 << open.size(); mask++) {
            double weight = 1;
            List<Code> active = new ArrayList<>(sure);
            for (int k = 0; k < open.size(); k++) {
                boolean on = (mask >> k & 1) == 1;
                weight *= on ? q.get(open.get(k)) : 1 - q.get(open.get(k));
                if (on) active.add(codes.get(open.get(k)));
            }
            out.add(new Distribution.Atom(weight, new Outcome.CodesActive(active)));
        }
        return out;
    }
}
