package loomcase.fit;

import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.fit.Difference.Severity;
import loomcase.fit.Difference.Subject;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.Wire;

/** Size, insulation class, stated length, twist and shield of the wires that end in matched cavities. */
final class WireRules {
    /** Smaller by up to this share is the same nominal size written in another system (AWG 18 and 0.75 mm²); judgement. */
    static final double SAME_SIZE = 0.90;

    /**
     * Highest conductor temperature by insulation class, degrees Celsius (GPT: 85 by one 2020 summary of SAE J1128; TXL, GXL,
     * SXL: 125, SAE J1128 by several makers' pages).
     */
    private static final Map<String, Integer> CLASS_CELSIUS = Map.of("GPT", 85, "TXL", 125, "GXL", 125, "SXL", 125);

    private final PlugPair pair;
    private final Circuit circuit;
    private final Layout layout;
    private final Set<String> seen;
    private final Findings findings;

    /**
     * @param seen ids of old wires that were compared from their other end; they are not compared again
     */
    WireRules(PlugPair pair, Circuit old, Layout layout, Set<String> seen, Findings findings) {
        this.seen = seen;
        this.pair = pair;
        this.circuit = old;
        this.layout = layout;
        this.findings = findings;
    }

    void apply() {
        pair.leads().cavities().forEach((c, n) -> {
            Lead a = pair.old().leads().get(c);
            Lead b = pair.neu().leads().get(n);
            if (!seen.add(a.wire())) return;
            size(c, a, b);
            insulation(c, a, b);
            lay(c, a, b);
            length(c, a, b);
        });
    }

    private void size(String c, Lead a, Lead b) {
        if (a.size().isEmpty() || b.size().isEmpty()) {
            findings.notKnown("wire sizes", pair.where(), true);
            return;
        }
        double ratio = b.size().get().areaSquareMillimetres() / a.size().get().areaSquareMillimetres();
        if (ratio >= SAME_SIZE && ratio <= 1 / SAME_SIZE) return;
        String what = "wire of " + circuitOf(a) + " is " + b.size().get().name() + ", the old one "
                + a.size().get().name();
        if (ratio > 1) {
            add(
                    Subject.WIRE,
                    Severity.NOTE,
                    c,
                    what,
                    "thicker insulation may not go through the wire seal of the old shell",
                    "look at the seal when the terminal is moved",
                    Difference.JUDGEMENT);
            return;
        }
        boolean feeds = a.serves().stream()
                .anyMatch(s -> s.startsWith("ground ")
                        || s.endsWith(", power")
                        || s.endsWith(", ground")
                        || s.endsWith("-driver")
                        || s.endsWith(" positive"));
        add(
                Subject.WIRE,
                feeds ? Severity.BLOCKS : Severity.CARE,
                c,
                what
                        + String.format(
                                Locale.ROOT,
                                ": may carry %.1f A in a bundle, the old one %.1f A",
                                Ampacity.amperes(b.size().get()),
                                Ampacity.amperes(a.size().get())),
                feeds
                        ? "it carries load current: more drop, and the fuse no longer protects it"
                        : "more resistance; a signal hardly feels it, but the wire is weaker",
                feeds ? "do not fit a thinner wire than the old one" : "accept only with the maker's consent",
                "replacement wire never thinner: " + Difference.PRACTICE + "; amperes: FAA AC 43.13-1B, table 11-9");
    }

    private static String circuitOf(Lead a) {
        return a.circuit().isEmpty() ? a.wire() : a.circuit();
    }

    private void insulation(String c, Lead a, Lead b) {
        if (a.insulation().isEmpty() || b.insulation().isEmpty()) {
            findings.notKnown("insulation classes", pair.where(), false);
            return;
        }
        if (a.insulation().equals(b.insulation())) return;
        Integer before = CLASS_CELSIUS.get(a.insulation());
        Integer after = CLASS_CELSIUS.get(b.insulation());
        String what = "insulation of " + circuitOf(a) + " is " + b.insulation() + ", the old one " + a.insulation();
        if (before == null || after == null || after >= before) {
            add(
                    Subject.WIRE,
                    Severity.NOTE,
                    c,
                    what,
                    before == null || after == null
                            ? "this program does not know one of these classes"
                            : "same heat class; another wall may not fill the wire seal",
                    "look at the wire seals when terminals are moved",
                    Difference.JUDGEMENT);
            return;
        }
        double hottest = hottest(a);
        boolean over = hottest > after;
        add(
                Subject.WIRE,
                over ? Severity.BLOCKS : Severity.CARE,
                c,
                what + ": good for " + after + " °C, the old one for " + before + " °C",
                over
                        ? "the wire passes a zone of " + Math.round(hottest) + " °C: the insulation softens and shorts"
                        : "less in hand where the loom gets hot",
                over ? "do not fit" : "keep it away from hot parts; look for more heat shielding",
                "heat classes: SAE J1128 by makers' pages; zone: the old circuit file");
    }

    private double hottest(Lead a) {
        return layout.runs(a.wire()).stream()
                .mapToDouble(r -> circuit.branches().get(r.branch()).zone().celsius())
                .max()
                .orElse(0);
    }

    private void lay(String c, Lead a, Lead b) {
        if (a.lay().isEmpty() || b.lay().isEmpty()) {
            if (a.lay().map(l -> l.twistedWith().isPresent() || l.shielded()).orElse(false))
                findings.notKnown("twisted pairs and shields", pair.where(), true);
            return;
        }
        Wire.Lay before = a.lay().get();
        Wire.Lay after = b.lay().get();
        boolean network = a.serves().stream()
                .anyMatch(s -> s.contains(", can-") || s.contains(" canHigh") || s.contains(" canLow"));
        if (before.twistedWith().isPresent() && after.twistedWith().isEmpty())
            add(
                    Subject.TWIST,
                    network ? Severity.BLOCKS : Severity.CARE,
                    c,
                    circuitOf(a) + " is not twisted, the old one is",
                    network
                            ? "the network picks up noise: messages lost at load"
                            : "noise on a small signal: codes that come and go",
                    network ? "do not fit" : "route it away from injector, starter and alternator wires",
                    network ? "twisted pair: SAE J1939-11 and J1939-15, from memory" : Difference.PRACTICE);
        if (before.shielded() && !after.shielded())
            add(
                    Subject.TWIST,
                    Severity.CARE,
                    c,
                    circuitOf(a) + " has no shield, the old one has",
                    "noise on the line: codes that come and go",
                    "ask whether the later build does without; route it away from injector and starter wires",
                    Difference.PRACTICE);
    }

    /** A stated length against the routed length of the old wire; where none is stated, the branches tell. */
    private void length(String c, Lead a, Lead b) {
        OptionalDouble stated = b.givenMetres();
        if (stated.isEmpty()) return;
        double route = layout.metres(circuit.wires().get(a.wire()));
        if (stated.getAsDouble() >= route - ReachRules.TOLERANCE_METRES) return;
        add(
                Subject.REACH,
                Severity.BLOCKS,
                c,
                String.format(
                        Locale.ROOT,
                        "wire of %s is %.2f m long, the route of the old one %.2f m",
                        circuitOf(a),
                        stated.getAsDouble(),
                        route),
                "it does not reach, or hangs taut, chafes and pulls at its terminals",
                "do not stretch or splice it to length; ask for the harness of this build year",
                Difference.PRACTICE);
    }

    private void add(
            Subject subject,
            Severity severity,
            String cavity,
            String what,
            String consequence,
            String action,
            String source) {
        findings.add(subject, severity, pair.where() + "/" + cavity, what, consequence, action, source);
    }
}
