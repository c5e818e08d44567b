package loomcase.casework;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import loomcase.Once;
import loomcase.faults.Priors;
import loomcase.intake.CaseIntake;
import loomcase.intake.Intake;
import loomcase.journal.Digest;
import loomcase.meter.Harm;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.plan.Planner;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.Dictionary;
import loomcase.rank.Evidence;
import loomcase.rank.Ranker;
import loomcase.verdict.VerdictMaker;

/**
 * One circuit with everything that was solved about it, shared by all answers about it.
 *
 * <p>The last {@value #MOST_ANSWERS} answers are kept. Networks and predictions are not made for several threads, so
 * {@link #solving} lets one at them at a time. May be shared between threads.
 */
public final class Bench {
    private static final int MOST_ANSWERS = 16;

    private final Circuit circuit;
    private final Digest digest;
    private final Once<Priors> priors;
    private final Once<Policy> rules;
    private final Once<PolicyOutcome> policy;
    private final Once<Layout> layout;
    private final Once<Ranker> ranker;
    private final AtomicBoolean started = new AtomicBoolean();
    private final Map<Digest, Answer> answers = new LinkedHashMap<>(16, 0.75f, true);

    Bench(Circuit circuit, Digest digest, Shop shop, Once<Policy> rules, Once<Priors> priors, Dictionary solved) {
        this.circuit = circuit;
        this.digest = digest;
        this.priors = priors;
        this.rules = rules;
        this.policy = new Once<>(() -> shop.decide(rules, circuit, solved));
        this.layout = new Once<>(() -> new Layout(circuit));
        this.ranker = new Once<>(() -> new Ranker(circuit, layout(), priors(), this::policy, solved));
    }

    /** The circuit. */
    public Circuit circuit() {
        return circuit;
    }

    /** Digest of the circuit's file. */
    public Digest digest() {
        return digest;
    }

    /** Base rates, the shop's own laid over. */
    public Priors priors() {
        return priors.get();
    }

    /** The rules in force, the shop's own laid over. */
    Policy rules() {
        return rules.get();
    }

    /** What the rules, the shop's own laid over, conclude for the circuit. */
    public PolicyOutcome policy() {
        return policy.get();
    }

    /** Where the wires run. */
    public Layout layout() {
        return layout.get();
    }

    /** Suspects and tests for evidence that comes from no case; not kept. */
    public Answer answer(Intake intake) {
        return new Answer(this, CaseIntake.of(intake));
    }

    /** Suspects and tests for evidence read elsewhere as a case is; not kept. */
    public Answer answer(CaseIntake intake) {
        return new Answer(this, intake);
    }

    /** The answer for a case by the digest of its last line, made when it is not among the ones kept. */
    Answer answer(Digest last, Supplier<CaseIntake> intake) {
        synchronized (answers) {
            Answer known = answers.get(last);
            if (known != null) return known;
        }
        Answer made = new Answer(this, intake.get());
        synchronized (answers) {
            Answer other = answers.putIfAbsent(last, made);
            if (answers.size() > MOST_ANSWERS)
                answers.remove(answers.keySet().iterator().next());
            return other == null ? made : other;
        }
    }

    /**
     * Starts on another core what ranking needs besides hypotheses: the rules, then the networks. Whoever needs either
     * before it is ready waits for it; what goes wrong is told to whoever asks for it.
     */
    void getReady(Evidence evidence) {
        if (started.getAndSet(true)) return;
        CompletableFuture.runAsync(policy::get);
        CompletableFuture.runAsync(() -> {
            // What was solved for the same complaint before is there; networks are then made only if somebody asks.
            if (!ranker.get().hasMet(evidence)) ranker.get().prepare(evidence.operatingPoints());
        });
    }

    /** Proposes tests; harms that the rules forbid rule a test out. */
    public Planner planner() {
        Set<Harm> forbidden = Arrays.stream(Harm.values())
                .filter(h -> policy().forbiddenHarms().contains(h.key()))
                .collect(Collectors.toSet());
        return new Planner(circuit, layout(), priors(), forbidden, circuit.costs()::partMinutes);
    }

    /**
     * Decides on repairs by the rules in force.
     *
     * @throws loomcase.InputProblem when the shop's file of repair costs cannot be used
     */
    public VerdictMaker verdicts(Advice advice) {
        return new VerdictMaker(circuit, layout(), advice.figures(), advice.rates(circuit), Advice.rules(rules()));
    }

    /**
     * Lets a function at the ranker and all that it keeps, one at a time; the function must not keep it.
     *
     * @return what the function gives
     */
    public <T> T solving(Function<Ranker, T> work) {
        Ranker one = ranker.get();
        synchronized (one) {
            return work.apply(one);
        }
    }
}
