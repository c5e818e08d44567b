package loomcase.cli;

import java.io.PrintWriter;
import java.util.Locale;
import loomcase.model.Watch;
import loomcase.predict.Predictor;
import loomcase.rank.Ranker;
import loomcase.rank.Ranking;

/** One suspect opened: its hypotheses, what each code says, and the pin values behind every prediction. */
final class WhyText {
    private static final int MOST_MEMBERS = 12;

    private final Answer answer;
    private final Ranker ranker;

    WhyText(Answer answer, Ranker ranker) {
        this.answer = answer;
        this.ranker = ranker;
    }

    void print(PrintWriter out, int rank) {
        Ranking.Suspect s = answer.ranking().suspects().get(rank - 1);
        out.printf(
                "SUSPECT %d  %s %s%n%n", s.rank(), Percent.of(s.probability()).strip(), s.words());
        out.println("HYPOTHESES that these codes cannot tell apart");
        s.members().stream()
                .limit(MOST_MEMBERS)
                .forEach(m -> out.printf("  %s %-24s %s%n", Percent.of(m.probability()), m.place(), m.words()));
        if (s.members().size() > MOST_MEMBERS)
            out.println("        and " + (s.members().size() - MOST_MEMBERS) + " more, less likely");
        out.println();
        out.println("EVIDENCE, likelihood ratio against a healthy engine");
        for (Ranking.Piece p : s.evidence()) {
            out.printf(
                    Locale.ROOT,
                    "  %-9s %-7s predicted %s   x %.3g%n",
                    p.code(),
                    p.found(),
                    Percent.of(p.predicted()).strip(),
                    p.likelihoodRatio());
            for (Predictor.Reading r : ranker.readings(
                    answer.intake().evidence(), s.members().get(0).edits(), p.code())) reading(out, r);
        }
        out.println();
        out.println("CAUTIONS");
        answer.cautions(s).forEach(c -> out.println("  ! " + c));
    }

    private static void reading(PrintWriter out, Predictor.Reading r) {
        Watch.Limit limit = r.watch().limit();
        String unit = r.watch().measure() instanceof Watch.PinAmperes ? "A" : "V";
        out.printf(
                Locale.ROOT,
                "            %s: %s %.3f %s, healthy %.3f %s, fault %s %.3f %s%n",
                r.operatingPoint(),
                measured(r.watch().measure()),
                r.value(),
                unit,
                r.healthy(),
                unit,
                limit.above() ? "above" : "below",
                limit.value(),
                unit);
    }

    private static String measured(Watch.Measure m) {
        if (m instanceof Watch.PinVolts v) return "pin " + v.pin();
        if (m instanceof Watch.PinAmperes a) return "driver " + a.pin();
        if (m instanceof Watch.Difference d) return "pins " + d.pin() + " less " + d.minusPin();
        if (m instanceof Watch.Swing s)
            return "swing of " + s.pin() + (s.minusPin().isEmpty() ? "" : " less " + s.minusPin());
        if (m instanceof Watch.Departure d) return "departure of pin " + d.pin();
        throw new IllegalStateException("unknown measure " + m);
    }
}
