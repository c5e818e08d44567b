package loomcase.verdict;

import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.DoubleFunction;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Predicate;

/**
 * Finds where the answer flips, by asking for the answer again: from the case's own value outward in both directions over a
 * raster, then by halving between the last value with the old answer and the first with a new one.
 */
final class BreakEvens {
    private static final int RASTER = 48;
    private static final int HALVINGS = 40;

    /** Most damaged circuits that are tried. */
    static final int MOST_CIRCUITS = 24;

    /** Labour rates tried: the case's own divided and multiplied by this. */
    static final double RATE_RANGE = 10;

    private final Weighing weighing;
    private final Weighing.Question question;

    BreakEvens(Weighing weighing, Weighing.Question question) {
        this.weighing = weighing;
        this.question = question;
    }

    /** All three. */
    List<BreakEven> all(int answer) {
        return List.of(hidden(answer), circuits(answer), labour(answer));
    }

    /** Varied in proportion for every remedy and cause; given as the mean over what the remedy asked about cures. */
    private BreakEven hidden(int answer) {
        int about = local(weighing, question, answer);
        BreakEven shift = solve(
                BreakEven.Quantity.HIDDEN_DAMAGE,
                0,
                -1,
                1,
                x -> answer(question.withHiddenShift(x), OptionalInt.empty()),
                false);
        return new BreakEven(
                shift.quantity(),
                mean(about, 0),
                mean(about, -1),
                mean(about, 1),
                map(shift.at(), x -> mean(about, x)),
                shift.becomes(),
                map(shift.harnessAt(), x -> mean(about, x)));
    }

    private static OptionalDouble map(OptionalDouble at, DoubleUnaryOperator to) {
        return at.isPresent() ? OptionalDouble.of(to.applyAsDouble(at.getAsDouble())) : at;
    }

    /** The answer, or where that replaces a whole part, the cheapest remedy that mends one place. */
    static int local(Weighing weighing, Weighing.Question question, int answer) {
        if (Weighing.leavesTheRest(weighing.remedies().get(answer))) return answer;
        double[] totals = weighing.stakes(question, Rulings.NONE).totals();
        int best = answer;
        for (int a = 0; a < totals.length; a++)
            if (Weighing.leavesTheRest(weighing.remedies().get(a)) && (best == answer || totals[a] < totals[best]))
                best = a;
        return best;
    }

    private double mean(int remedy, double shift) {
        Stakes s = weighing.stakes(question.withHiddenShift(shift), Rulings.NONE);
        Stakes.Act act = s.acts().get(remedy);
        double sum = 0;
        double cured = 0;
        for (int h = 0; h < s.weight().length; h++) {
            double w = s.weight()[h] * act.cures()[h];
            sum += w * act.hidden()[h];
            cured += w;
        }
        return cured == 0 ? 0 : sum / cured;
    }

    private BreakEven circuits(int answer) {
        int now = Math.max(
                1, weighing.remedies().get(local(weighing, question, answer)).circuits());
        return solve(
                BreakEven.Quantity.CIRCUITS,
                now,
                1,
                MOST_CIRCUITS,
                x -> answer(question.withCircuits((int) Math.round(x)), OptionalInt.of((int) Math.round(x))),
                true);
    }

    private BreakEven labour(int answer) {
        double now = question.rates().labourPerHour();
        return solve(
                BreakEven.Quantity.LABOUR_RATE,
                now,
                now / RATE_RANGE,
                now * RATE_RANGE,
                x -> answer(question.with(new Rates(x, question.rates().downtimePerHour())), OptionalInt.empty()),
                false);
    }

    /** The answer to a question: index of the cheapest remedy that no rule forbids. */
    int answer(Weighing.Question q, OptionalInt circuits) {
        Rulings rulings = weighing.rulings(circuits);
        Stakes stakes = weighing.stakes(q, rulings);
        return stakes.cheapest(stakes.totals(), weighing.allowed(rulings)).orElse(-1);
    }

    private BreakEven solve(
            BreakEven.Quantity quantity,
            double now,
            double low,
            double high,
            DoubleFunction<Integer> answerAt,
            boolean whole) {
        int start = answerAt.apply(now);
        OptionalDouble flip = nearest(now, low, high, answerAt, a -> a != start, whole);
        OptionalDouble harness =
                isHarness(start) ? OptionalDouble.of(now) : nearest(now, low, high, answerAt, this::isHarness, whole);
        String becomes = flip.isPresent() ? option(answerAt.apply(flip.getAsDouble())) : "";
        return new BreakEven(quantity, now, low, high, flip, becomes, harness);
    }

    private boolean isHarness(int remedy) {
        return option(remedy).equals("full-harness");
    }

    private String option(int remedy) {
        return remedy < 0 ? "ask" : weighing.remedies().get(remedy).option();
    }

    private static OptionalDouble nearest(
            double now,
            double low,
            double high,
            DoubleFunction<Integer> answerAt,
            Predicate<Integer> reached,
            boolean whole) {
        OptionalDouble up = towards(now, high, answerAt, reached, whole);
        OptionalDouble down = towards(now, low, answerAt, reached, whole);
        if (up.isEmpty() || down.isEmpty()) return up.isPresent() ? up : down;
        return up.getAsDouble() - now <= now - down.getAsDouble() ? up : down;
    }

    /** First value on the way from {@code now} to {@code end} at which the answer is as asked. */
    private static OptionalDouble towards(
            double now, double end, DoubleFunction<Integer> answerAt, Predicate<Integer> reached, boolean whole) {
        if (now == end) return OptionalDouble.empty();
        int steps = whole ? (int) Math.round(Math.abs(end - now)) : RASTER;
        double before = now;
        for (int i = 1; i <= steps; i++) {
            double x = now + (end - now) * i / steps;
            if (!reached.test(answerAt.apply(x))) {
                before = x;
                continue;
            }
            return OptionalDouble.of(whole ? Math.round(x) : halve(before, x, answerAt, reached));
        }
        return OptionalDouble.empty();
    }

    private static double halve(
            double without, double with, DoubleFunction<Integer> answerAt, Predicate<Integer> reached) {
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (without + with) / 2;
            if (reached.test(answerAt.apply(middle))) with = middle;
            else without = middle;
        }
        return with;
    }
}
