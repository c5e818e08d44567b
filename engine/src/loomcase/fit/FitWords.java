package loomcase.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import loomcase.model.Names;

/** Sentences that every face shows alike. */
public final class FitWords {
    private static final int MOST_HARMS = 2;

    private FitWords() {}

    /** The first lines: the answer, what has to be moved, what is not known. */
    public static List<String> answer(FitReport r) {
        FitResult f = r.fit();
        List<String> out = new ArrayList<>();
        out.add(f.answer().toUpperCase(Locale.ROOT) + ": " + f.newName() + " in place of "
                + f.old().id() + ".");
        if (f.verdict() == FitResult.Verdict.DOES_NOT_FIT)
            f.differences().stream()
                    .filter(d -> d.severity() == Difference.Severity.BLOCKS)
                    .forEach(d -> out.add("Because: " + d.where() + ": " + d.what() + "."));
        if (f.verdict() != FitResult.Verdict.DOES_NOT_FIT)
            for (Transfer t : f.transfers()) out.add("Move: " + summary(t) + ".");
        List<String> unknown = f.notKnown().stream()
                .filter(Difference.NotKnown::matters)
                .map(Difference.NotKnown::what)
                .toList();
        if (!unknown.isEmpty()) out.add("Not known: " + String.join(", ", unknown) + ".");
        return out;
    }

    /** One transfer in a line. */
    public static String summary(Transfer t) {
        long parked =
                t.moves().stream().filter(m -> m.kind() == Moves.Kind.PARK).count();
        return t.plug() + ": " + count(t.handled().size(), "terminal") + " "
                + (t.shell() == Transfer.Shell.OLD ? "into the old shell" : "inside the same shell")
                + (parked == 0 ? "" : ", " + parked + " parked on the way")
                + (t.setAside().isEmpty() ? "" : ", " + t.setAside().size() + " set aside");
    }

    /** The cycles of a transfer, such as {@code 6 → 7 → 8 → 6}; empty for none. */
    public static String cycles(Transfer t) {
        return t.cycles().stream()
                .map(c -> String.join(" → ", c) + " → " + c.get(0))
                .collect(Collectors.joining("; "));
    }

    /** How the slips of a plug show, in a sentence. */
    public static String slips(FitReport.PlugReport p) {
        long dead = p.count(Slip.Effect.UNIT_DEAD);
        long none = p.count(Slip.Effect.NONE);
        return count(p.slips().size(), "single slip") + ": " + p.count(Slip.Effect.CODES) + " set codes, "
                + p.count(Slip.Effect.SILENT) + " are silent"
                + (dead == 0 ? "" : ", " + dead + " leave the control unit without supply")
                + (none == 0 ? "" : ", " + none + " change nothing") + "; "
                + p.harmful().size() + " may damage.";
    }

    /** What was done wrong. */
    public static String what(Slip s) {
        String a = Names.cavityOf(s.cavity());
        return switch (s.kind()) {
            case SWAPPED -> a + " and " + s.other().map(Names::cavityOf).orElse("") + " swapped";
            case LEFT_OUT -> a + " left out";
            case NOT_SEATED -> a + " not seated, comes and goes";
        };
    }

    /** What was done wrong in a few signs, for a table: {@code 2↔5} for a swap, {@code 2 out} for one left out. */
    public static String brief(Slip s) {
        String a = Names.cavityOf(s.cavity());
        return switch (s.kind()) {
            case SWAPPED -> a + "↔" + s.other().map(Names::cavityOf).orElse("");
            case LEFT_OUT -> a + "\u00a0out";
            case NOT_SEATED -> a + " loose";
        };
    }

    /** What would follow. */
    public static String follows(Slip s) {
        List<String> out = new ArrayList<>();
        switch (s.effect()) {
            case NONE -> out.add("nothing: both are one circuit");
            case SILENT -> out.add("NO CODE");
            case UNIT_DEAD -> out.add("control unit without supply: no code, no start");
            case CODES ->
                out.add("codes "
                        + s.codes().stream()
                                .map(c -> c.code().spn() + "/" + c.code().fmi())
                                .collect(Collectors.joining(" ")));
        }
        if (s.kind() == Slip.Kind.NOT_SEATED) out.set(0, out.get(0) + ", now and then");
        for (String harm : s.damage().subList(0, Math.min(MOST_HARMS, s.damage().size()))) out.add(harm);
        if (s.damage().size() > MOST_HARMS) out.add((s.damage().size() - MOST_HARMS) + " more dangers");
        if (!s.settled()) out.add("the network finds no steady state, so this is not sure");
        return String.join("; ", out);
    }

    /** The check that catches a slip, with what it reads then. */
    public static String caught(Slip s) {
        if (s.check().isEmpty())
            return s.effect() == Slip.Effect.NONE ? "" : "no continuity check reaches it: tug test";
        Slip.Check c = s.check().get();
        String right = c.cavity() + " to " + c.far() + ": at most " + ohms(c.limitOhms());
        return right
                + (s.kind() == Slip.Kind.NOT_SEATED
                        ? ", jumps when tugged"
                        : "; then it reads " + ohms(s.wrongOhms().orElse(Double.POSITIVE_INFINITY)));
    }

    /** A check as a line. */
    public static String check(Slip.Check c) {
        return c.cavity() + " to " + c.far() + ": about " + ohms(c.expectedOhms()) + ", at most " + ohms(c.limitOhms())
                + " (apart: " + String.join(", ", c.apart()) + (c.ofNewWire() ? ")" : "; of the old wire)");
    }

    /** Ohms as a meter shows them. */
    public static String ohms(double ohms) {
        if (Double.isInfinite(ohms)) return "over range";
        if (ohms >= 1e6) return String.format(Locale.ROOT, "%.1f Mohm", ohms / 1e6);
        if (ohms >= 1000) return String.format(Locale.ROOT, "%.1f kohm", ohms / 1000);
        return String.format(Locale.ROOT, ohms >= 10 ? "%.0f ohm" : ohms >= 0.1 ? "%.2f ohm" : "%.3f ohm", ohms);
    }

    /** How many, with the noun. */
    public static String count(long n, String noun) {
        return n + " " + noun + (n == 1 ? "" : "s");
    }
}
