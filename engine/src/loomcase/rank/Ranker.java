package loomcase.rank;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.function.BiFunction;
import java.util.function.DoubleConsumer;
import java.util.function.Supplier;
import loomcase.faults.AfterWork;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.j1939.Code;
import loomcase.meter.MeterPrediction;
import loomcase.meter.Observations;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CodeTable;
import loomcase.predict.Dictionary;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.solve.NetworkSolver;

/**
 * Entry of this stage: from evidence to ranked suspects.
 *
 * <p>Posterior odds of a hypothesis against a healthy engine = prior odds × likelihood ratio of all codes, seen and
 * not seen ({@link Likelihood}). Common causes with unknown hits go through {@link SubsetSearch}, two faults through
 * {@link PairSearch}; one more hypothesis stands for everything the model does not contain. The posterior is the odds
 * normalised over all of these. Hypotheses that predict the same are shown as one {@link Group}.
 *
 * <p>Predictions are kept between rankings of one circuit. Not thread-safe; one per thread.
 */
public final class Ranker {
    /** Predictors kept; each combination of operating points and of codes from outside the circuit has its own. */
    private static final int MOST_PREDICTORS = 4;

    private final Circuit circuit;
    private final Layout layout;
    private final Priors priors;
    private final Supplier<PolicyOutcome> policy;
    private final NetworkSolver solver;
    private final Dictionary dictionary;
    private final Map<String, Predictor> predictors = new HashMap<>();
    private final Map<Predictor, MeterPrediction> meters = new IdentityHashMap<>();
    private final Map<Predictor, TestLikelihood.Memory> memories = new IdentityHashMap<>();
    private List<Hypothesis> hypotheses = List.of();
    private Singles singles = Singles.NONE;
    private volatile boolean ahead;

    public Ranker(Circuit circuit, Priors priors, PolicyOutcome policy) {
        this(circuit, priors, policy, Dictionary.NONE);
    }

    /** @param dictionary what earlier runs have solved of this circuit */
    public Ranker(Circuit circuit, Priors priors, PolicyOutcome policy, Dictionary dictionary) {
        this(circuit, priors, () -> policy, dictionary);
    }

    /** @param policy asked after the hypotheses have been generated, so that rules may load meanwhile */
    public Ranker(Circuit circuit, Priors priors, Supplier<PolicyOutcome> policy, Dictionary dictionary) {
        this(circuit, new Layout(circuit), priors, policy, dictionary);
    }

    /** @param layout where the circuit's wires run */
    public Ranker(
            Circuit circuit, Layout layout, Priors priors, Supplier<PolicyOutcome> policy, Dictionary dictionary) {
        this.dictionary = dictionary;
        this.circuit = circuit;
        this.layout = layout;
        this.priors = priors;
        this.policy = policy;
        this.solver = new NetworkSolver(circuit, layout);
    }

    /**
     * Ranks what may be wrong.
     *
     * @param evidence codes and operating points; every operating point must be one of the circuit's
     * @param progress told the share done, 0 to 1
     */
    public Ranking rank(Evidence evidence, DoubleConsumer progress) {
        return rank(evidence, progress, PairSearch::search);
    }

    /**
     * The same with every pair of faults that can matter, see {@code AllPairs}: seconds instead of milliseconds.
     *
     * @param evidence codes and operating points; every operating point must be one of the circuit's
     * @param progress told the share done of the single faults, 0 to 1
     */
    public Ranking rankWithAllPairs(Evidence evidence, DoubleConsumer progress) {
        return rank(evidence, progress, PairSearch::all);
    }

    private Ranking rank(
            Evidence evidence, DoubleConsumer progress, BiFunction<PairSearch, List<Group>, List<Group>> pairs) {
        Weighed w = weighed(evidence, progress);
        List<Group> all = new ArrayList<>(w.groups);
        PairSearch search = new PairSearch(w.predictor, w.likelihood, w.tests);
        all.addAll(pairs.apply(search, w.groups));
        all.sort(Comparator.comparingDouble((Group g) -> -g.logScore())
                .thenComparing(g -> g.leader().hypothesis().id()));
        progress.accept(1);
        return new Reasons(circuit, layout, w.predictor, w.likelihood, evidence, w.effects)
                .ranking(
                        all,
                        outside(w.likelihood, w.predictor.table()) + w.tests.outside(),
                        search.logHidden(w.groups, all),
                        w.candidates);
    }

    /**
     * Single faults and common causes, scored and grouped, with what scored them.
     *
     * @param candidates how many there were before they were grouped
     * @param effects what work did to the odds of a hypothesis, by its id
     */
    record Weighed(
            Predictor predictor,
            Likelihood likelihood,
            TestLikelihood tests,
            List<Group> groups,
            int candidates,
            Map<String, AfterWork.Effect> effects) {}

    /** Everything but the pairs. */
    Weighed weighed(Evidence evidence, DoubleConsumer progress) {
        if (hypotheses.isEmpty()) {
            hypotheses = new FaultGenerator(circuit, layout, priors).generate();
            singles = Singles.of(hypotheses);
        }
        Predictor predictor = predictor(evidence);
        // Joint faults come after what the dictionary has of single ones; their networks are made meanwhile.
        if (ahead) CompletableFuture.runAsync(predictor::makeNetworks);
        AfterWork after = AfterWork.weigh(circuit, layout, priors, hypotheses, evidence.work());
        List<Hypothesis> weighed = after.hypotheses();
        List<Prediction> predictions = predictor.singles(singles.edits(), share -> progress.accept(0.9 * share));
        Likelihood codes = new Likelihood(predictor, evidence, priors);
        Likelihood likelihood = codes.with(complaint(evidence, codes, predictions));
        List<Candidate> candidates = singles(weighed, predictor, likelihood, predictions);
        SubsetSearch subsets = new SubsetSearch(predictor, likelihood, relevantPoints(candidates, likelihood));
        double single =
                candidates.stream().mapToDouble(Candidate::logScore).max().orElseThrow();
        candidates.addAll(subsets.search(weighed, single));
        TestLikelihood tests = new TestLikelihood(
                meter(predictor),
                evidence.tested(),
                memories.computeIfAbsent(predictor, p -> new TestLikelihood.Memory()));
        return new Weighed(
                predictor, likelihood, tests, Group.of(tests.weigh(candidates)), candidates.size(), after.effects());
    }

    /** The predictor for these operating points and codes; kept, so that ranking again does not solve again. */
    private Predictor predictor(Evidence evidence) {
        List<Code> seen = evidence.codes().stream().map(Evidence.Seen::code).toList();
        CodeTable table = new CodeTable(circuit.watches(), policy.get(), seen, priors.get("observe.missed-code"));
        String key = evidence.operatingPoints() + " " + table.codes();
        if (!predictors.containsKey(key) && predictors.size() >= MOST_PREDICTORS) {
            predictors.clear();
            meters.clear();
            memories.clear();
        }
        return predictors.computeIfAbsent(
                key, k -> new Predictor(circuit, solver, table, evidence.operatingPoints(), dictionary));
    }

    private MeterPrediction meter(Predictor predictor) {
        return meters.computeIfAbsent(
                predictor,
                p -> new MeterPrediction(
                        circuit,
                        layout,
                        solver,
                        p,
                        Observations.builtIn(),
                        priors.get("observe.intermittent-active-share"),
                        dictionary));
    }

    /**
     * Has the dictionary keep what was solved for this evidence, so that the next command about the same complaint need not
     * solve it again. Answers are the same without.
     */
    public void keep(Evidence evidence) {
        if (dictionary == Dictionary.NONE) return;
        predictors.values().forEach(Predictor::keep);
        meters.values().forEach(MeterPrediction::keep);
        MetBefore kept = MetBefore.of(dictionary);
        if (!kept.has(evidence))
            dictionary.put(MetBefore.NAME, kept.with(evidence).bytes());
    }

    /** True when this evidence was ranked before and what was solved for it is likely to be there. */
    public boolean hasMet(Evidence evidence) {
        return MetBefore.of(dictionary).has(evidence);
    }

    /**
     * Makes the networks of some operating points ready, on all cores, and has rankings make those of their phases ready
     * beside what else they do. May run beside a ranking, which then waits for the networks where it needs them; a ranking
     * makes them itself when nobody has.
     */
    public void prepare(List<String> operatingPoints) {
        ahead = true;
        solver.prepare(operatingPoints);
    }

    /** Predicts tests for the evidence's hypotheses, with what was solved so far kept. */
    public MeterPrediction meter(Evidence evidence) {
        return meter(predictor(evidence));
    }

    /** What the watches of a code measure under a suspect's edits, beside the healthy values. */
    public List<Predictor.Reading> readings(Evidence evidence, List<Edit> edits, Code code) {
        Predictor predictor = predictor(evidence);
        return predictor.readings(edits, predictor.table().index(code));
    }

    /** Where the circuit's wires run. */
    public Layout layout() {
        return layout;
    }

    /**
     * Weighed with the base rates, whatever work was done since: it asks how often an engine is brought in without cause.
     *
     * @param predictions of the hypotheses that are no common causes, by {@link Singles#number}
     */
    private Complaint complaint(Evidence evidence, Likelihood likelihood, List<Prediction> predictions) {
        if (evidence.codes().isEmpty()) return Complaint.NONE;
        double caused = 0;
        for (int i = 0; i < hypotheses.size(); i++) {
            Hypothesis h = hypotheses.get(i);
            if (h.id().equals(FaultGenerator.NOTHING)) continue;
            // A common cause hits several wires and is taken to show something.
            double shows = h.cause() instanceof Hypothesis.Fixed
                    ? likelihood.someOwn(predictions.get(singles.number()[i]), h.comesAndGoes())
                    : 1;
            caused += Math.exp(Candidate.logOdds(h.probability())) * shows;
        }
        return Complaint.withCodes(priors.get("observe.complaint-without-cause"), caused, likelihood.someStray());
    }

    /** @param weighed the hypotheses with the work weighed in: the same ones in the same order, slips behind them */
    private List<Candidate> singles(
            List<Hypothesis> weighed, Predictor predictor, Likelihood likelihood, List<Prediction> predictions) {
        predictor.prepare(weighed.stream()
                .skip(hypotheses.size())
                .map(h -> ((Hypothesis.Fixed) h.cause()).edits())
                .toList());
        List<Candidate> out = new ArrayList<>();
        for (int i = 0; i < weighed.size(); i++) {
            Hypothesis h = weighed.get(i);
            if (!(h.cause() instanceof Hypothesis.Fixed f)) continue;
            Prediction p = i < hypotheses.size() ? predictions.get(singles.number()[i]) : predictor.predict(f.edits());
            double prior = h.id().equals(FaultGenerator.NOTHING) ? 0 : Candidate.logOdds(h.probability());
            out.add(new Candidate(
                    h, h.words(), h.places(), f.edits(), p, prior, likelihood.ratio(p, h.comesAndGoes())));
        }
        return out;
    }

    /** First points of all wires whose own faults raise a code seen, with the log score of the best of these faults. */
    private Map<String, Double> relevantPoints(List<Candidate> candidates, Likelihood likelihood) {
        Map<String, Double> points = new HashMap<>();
        for (Candidate c : candidates)
            if (raises(c.prediction(), likelihood))
                for (PlaceId place : c.places())
                    if (place.kind() == PlaceId.Kind.WIRE)
                        points.merge(circuit.wires().get(place.id()).from(), c.logScore(), Math::max);
        return points;
    }

    private static boolean raises(Prediction p, Likelihood likelihood) {
        for (int k = 0; k < p.codes().length; k++)
            if (likelihood.isSeen(p.codes()[k]) && p.probability()[k] > 0.3) return true;
        return false;
    }

    /**
     * Log odds of a cause outside the model, which shows each code looked for with the same small probability.
     *
     * <p>A code of an SPN that the circuit does not watch belongs to something else and says nothing for or against.
     */
    private double outside(Likelihood likelihood, CodeTable table) {
        Set<Integer> watched = new HashSet<>();
        circuit.watches().forEach(w -> watched.add(w.spn()));
        double rate = priors.get("observe.outside-code");
        double sum = Math.log(priors.get("observe.outside-model"));
        for (int c = 0; c < likelihood.size(); c++)
            if (watched.contains(table.codes().get(c).spn())) sum += likelihood.logLasting(c, rate);
        return sum;
    }
}
