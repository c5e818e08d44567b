package loomcase.cli;

import java.util.List;
import java.util.Locale;
import loomcase.casework.Answer;
import loomcase.model.Watch;
import loomcase.predict.Predictor;
import loomcase.rank.Ranking;

/** One suspect opened: its hypotheses, what each code says, and the pin values behind every prediction. */
final class WhyText {
    private static final int MOST_MEMBERS = 12;

    private final Answer answer;

    WhyText(Answer answer) {
        this.answer = answer;
    }

    void print(Page page, int rank) {
        Ranking.Suspect s = answer.ranking().suspects().get(rank - 1);
        page.line("SUSPECT " + s.rank() + "  " + Percent.of(s.probability()).strip() + " " + s.words());
        page.line();
        members(page, s);
        page.line();
        evidence(page, s);
        List<String> cautions = answer.cautions(s);
        if (cautions.isEmpty()) return;
        page.line();
        page.line("CAUTIONS");
        cautions.forEach(c -> page.line("  ! " + c, 4));
    }

    private static void members(Page page, Ranking.Suspect s) {
        page.line(s.members().size() == 1 ? "FAULT" : "FAULTS that these codes cannot tell apart");
        int place = s.members().stream()
                .limit(MOST_MEMBERS)
                .mapToInt(m -> m.place().toString().length())
                .max()
                .orElse(1);
        s.members().stream()
                .limit(MOST_MEMBERS)
                .forEach(m -> page.line(
                        String.format(
                                Locale.ROOT,
                                "  %s  %-" + place + "s  %s",
                                Percent.of(m.probability()),
                                m.place(),
                                m.words()),
                        12 + place));
        if (s.members().size() > MOST_MEMBERS)
            page.line("        and " + (s.members().size() - MOST_MEMBERS) + " more, less likely");
    }

    private void evidence(Page page, Ranking.Suspect s) {
        page.line("EVIDENCE: how much likelier each finding is with this fault than on a healthy engine");
        for (Ranking.Piece p : s.evidence()) {
            page.line(String.format(
                    Locale.ROOT,
                    "  %-9s %-7s predicted at %s: %s",
                    p.code(),
                    p.found(),
                    Percent.of(p.predicted()).strip(),
                    weight(p.likelihoodRatio())));
            for (Predictor.Reading r : answer.readings(s.members().get(0).edits(), p.code())) reading(page, r);
        }
        for (Ranking.TestPiece t : s.tests())
            page.line("  " + t.words() + ": " + t.outcome() + ": " + weight(t.likelihoodRatio()), 12);
    }

    /** A likelihood ratio as a person says it. */
    private static String weight(double ratio) {
        if (ratio >= 0.95 && ratio < 1.05) return "as likely either way";
        return ratio >= 1 ? times(ratio) + " likelier" : times(1 / ratio) + " less likely";
    }

    private static String times(double factor) {
        return factor < 9.95 ? String.format(Locale.ROOT, "%.1f times", factor) : RankText.times(factor);
    }

    private static void reading(Page page, Predictor.Reading r) {
        Watch.Limit limit = r.watch().limit();
        String unit = r.watch().measure() instanceof Watch.PinAmperes ? "A" : "V";
        page.line(
                String.format(
                        Locale.ROOT,
                        "            %s: %s %.3f %s, healthy %.3f %s, code %s %.3f %s",
                        r.operatingPoint(),
                        measured(r.watch().measure()),
                        shown(r.value()),
                        unit,
                        shown(r.healthy()),
                        unit,
                        limit.above() ? "above" : "below",
                        limit.value(),
                        unit),
                14);
    }

    /** A value that rounds to nothing is shown without a sign. */
    private static double shown(double value) {
        return Math.abs(value) < 0.0005 ? 0 : value;
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
