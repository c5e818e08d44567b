package loomcase.faults;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.model.Circuit;
import loomcase.model.Layout;

/**
 * What work does to the base rates: what it mended is less probable afterwards ({@code WorkLeft}), a slip at a plug that was
 * apart more ({@code WorkSlips}).
 *
 * <p>The odds of a hypothesis are multiplied by the probability that the work leaves it; then the probability of a slip is
 * the least that a slip can have. Cost: hypotheses times pieces of work.
 *
 * @param hypotheses in the order given, those that only work makes thinkable last
 * @param effects what the work did to a hypothesis, by its id; absent where it did nothing
 */
public record AfterWork(List<Hypothesis> hypotheses, Map<String, Effect> effects) {
    /**
     * What work did to one hypothesis.
     *
     * @param words the work
     * @param odds factor on its odds, below 1 where the work may have mended it, above where it may have made it
     */
    public record Effect(String words, double odds) {}

    public AfterWork {
        hypotheses = List.copyOf(hypotheses);
        effects = Map.copyOf(effects);
    }

    /**
     * Hypotheses with the work weighed in.
     *
     * @param hypotheses of the circuit, from {@link FaultGenerator}
     */
    public static AfterWork weigh(
            Circuit circuit, Layout layout, Priors priors, List<Hypothesis> hypotheses, WorkDone work) {
        if (work.isNone()) return new AfterWork(hypotheses, Map.of());
        List<WorkLeft.Left> left = new ArrayList<>();
        List<Hypothesis> mended = new ArrayList<>();
        WorkLeft rule = new WorkLeft(circuit, layout, priors, work.jobs());
        for (Hypothesis h : hypotheses) {
            left.add(rule.of(h));
            mended.add(with(h, rule, left.get(left.size() - 1).odds()));
        }
        List<Hypothesis> out = WorkSlips.weigh(circuit, priors, mended, work.apart());
        Map<String, Effect> effects = new LinkedHashMap<>();
        for (int i = 0; i < hypotheses.size(); i++) {
            Hypothesis h = hypotheses.get(i);
            boolean slip = out.get(i).probability() > mended.get(i).probability();
            Optional<String> words = left.get(i).by().map(WorkDone.Job::words);
            double odds = odds(out.get(i)) / odds(h);
            if (slip) effects.put(h.id(), new Effect("plug taken apart in the work", odds));
            else if (words.isPresent()) effects.put(h.id(), new Effect(words.get(), odds));
        }
        return new AfterWork(out, effects);
    }

    private static Hypothesis with(Hypothesis h, WorkLeft rule, double left) {
        boolean many = h.cause() instanceof Hypothesis.AnyOf;
        if (left == 1 && !many) return h;
        double kept = left * h.probability();
        return new Hypothesis(
                h.id(),
                h.family(),
                h.places(),
                h.words(),
                many ? with((Hypothesis.AnyOf) h.cause(), h.family(), rule) : h.cause(),
                kept / (kept + 1 - h.probability()),
                h.comesAndGoes());
    }

    private static Hypothesis.AnyOf with(Hypothesis.AnyOf cause, String family, WorkLeft rule) {
        return new Hypothesis.AnyOf(
                cause.hits().stream().map(hit -> rule.of(hit, family)).toList(),
                cause.hitShare(),
                cause.least(),
                cause.together());
    }

    private static double odds(Hypothesis h) {
        return h.probability() / (1 - h.probability());
    }
}
