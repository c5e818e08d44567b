package loomcase.cli;

import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import loomcase.draw.MapSvg;
import loomcase.model.Circuit;
import loomcase.policy.RemedyFact;
import loomcase.verdict.Sweep;
import loomcase.verdict.Verdict;

/** Lays a sweep out for drawing. */
final class SweepDrawing {
    private SweepDrawing() {}

    static String draw(Sweep sweep, Circuit circuit) {
        List<String> answers = Stream.concat(RemedyFact.OPTIONS.stream(), Stream.of(Verdict.ASK))
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
                rates.stream().map(r -> String.format(Locale.ROOT, "%.0f", r)).toList(),
                answers,
                sweep.options(),
                Math.min(sweep.caseCircuits(), sweep.circuits().size()) - 1,
                row,
                "this case"));
    }
}
