package loomcase.cli;

import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import loomcase.draw.MapSvg;
import loomcase.model.Circuit;
import loomcase.policy.RemedyFact;
import loomcase.verdict.Remedy;
import loomcase.verdict.Sweep;
import loomcase.verdict.Verdict;

/** Lays a sweep out for drawing. */
final class SweepDrawing {
    private SweepDrawing() {}

    static String draw(Sweep sweep, Circuit circuit) {
        List<String> answers = Stream.concat(RemedyFact.OPTIONS.stream(), Stream.of(Remedy.TWO, Verdict.ASK))
                .filter(o -> sweep.options().stream().anyMatch(row -> row.contains(o)))
                .toList();
        List<Double> rates = sweep.labourPerHour();
        double step = Math.log(rates.get(1) / rates.get(0));
        double row = rates.get(0) == 0 ? 0 : Math.log(sweep.caseLabourPerHour() / rates.get(0)) / step;
        return MapSvg.draw(new MapSvg.Content(
                "What to do, if it had to be done now",
                circuit.title() + "; least expected cost among what the rules allow",
                "damaged circuits at the place",
                "labour, " + sweep.currency() + " an hour",
                sweep.circuits().stream().map(String::valueOf).toList(),
                rates.stream().map(r -> rate(r)).toList(),
                answers,
                sweep.options(),
                sweep.ruled(),
                "dot: rules decide there; money alone would answer otherwise",
                Math.min(sweep.caseCircuits(), sweep.circuits().size()) - 1,
                row,
                "this case"));
    }

    /** Two digits where the rate has three: nobody weighs the third. */
    private static String rate(double r) {
        double step = Math.pow(10, Math.max(0, Math.floor(Math.log10(Math.max(1, r))) - 1));
        return String.format(Locale.ROOT, "%.0f", Math.round(r / step) * step);
    }
}
