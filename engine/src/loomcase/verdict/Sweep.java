package loomcase.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;

/**
 * The answer, if one had to act now, over the number of damaged circuits and the labour rate.
 *
 * @param circuits numbers of damaged circuits, one for each column
 * @param labourPerHour labour rates, one for each row, rising
 * @param options option by row, then column; {@code ask} where the rules forbid every remedy
 * @param ruled whether rules, not money, give the answer there, by row, then column
 * @param caseCircuits damaged circuits in this case
 * @param caseLabourPerHour labour rate in this case
 * @param currency label of the rates
 */
public record Sweep(
        List<Integer> circuits,
        List<Double> labourPerHour,
        List<List<String>> options,
        List<List<Boolean>> ruled,
        int caseCircuits,
        double caseLabourPerHour,
        String currency) {
    /** Most damaged circuits shown. */
    static final int COLUMNS = 16;

    private static final int ROWS = 13;

    /** Lowest and highest rate shown, as multiples of the case's own. */
    private static final double LEAST = 0.25;

    private static final double MOST = 4;

    public Sweep {
        circuits = List.copyOf(circuits);
        labourPerHour = List.copyOf(labourPerHour);
        options = options.stream().map(List::copyOf).toList();
        ruled = ruled.stream().map(List::copyOf).toList();
    }

    static Sweep of(Weighing weighing, Weighing.Question q, String currency) {
        List<Integer> columns = new ArrayList<>();
        for (int n = 1; n <= COLUMNS; n++) columns.add(n);
        double own = q.rates().labourPerHour();
        List<Double> rates = new ArrayList<>();
        for (int i = 0; i < ROWS; i++) rates.add(own * LEAST * Math.pow(MOST / LEAST, i / (ROWS - 1.0)));
        List<Rulings> rulings =
                columns.stream().map(n -> weighing.rulings(OptionalInt.of(n))).toList();
        List<List<String>> options = new ArrayList<>();
        List<List<Boolean>> ruled = new ArrayList<>();
        for (double rate : rates) {
            List<String> row = new ArrayList<>();
            List<Boolean> byRule = new ArrayList<>();
            for (int n : columns) {
                Weighing.Question here =
                        q.with(new Rates(rate, q.rates().downtimePerHour())).withCircuits(n);
                String answer = answer(weighing, here, rulings.get(n - 1));
                row.add(answer);
                byRule.add(!answer.equals(answer(weighing, here, Rulings.NONE)));
            }
            options.add(row);
            ruled.add(byRule);
        }
        Rulings usual = weighing.rulings(OptionalInt.empty());
        Stakes stakes = weighing.stakes(q, usual);
        int circuits = stakes.cheapest(stakes.totals(), weighing.allowed(usual)).stream()
                .map(i -> Math.max(
                        1,
                        weighing.remedies()
                                .get(BreakEvens.local(weighing, q, i))
                                .circuits()))
                .findFirst()
                .orElse(1);
        return new Sweep(columns, rates, options, ruled, circuits, own, currency);
    }

    private static String answer(Weighing weighing, Weighing.Question q, Rulings rulings) {
        Stakes stakes = weighing.stakes(q, rulings);
        OptionalInt best = stakes.cheapest(stakes.totals(), weighing.allowed(rulings));
        return best.isPresent() ? weighing.remedies().get(best.getAsInt()).option() : Verdict.ASK;
    }
}
