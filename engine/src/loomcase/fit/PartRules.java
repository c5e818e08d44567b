package loomcase.fit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import loomcase.fit.Difference.Severity;
import loomcase.fit.Difference.Subject;
import loomcase.model.Circuit;
import loomcase.model.ControlUnit;
import loomcase.model.Copper;
import loomcase.model.Device;
import loomcase.model.Joints;

/** What one harness has and the other has not: plugs, fuses, ground studs, terminating resistors. */
final class PartRules {
    /** Two resistances are the same within this share; terminators are 120 ohm within a few percent (SAE J1939-11). */
    private static final double SAME_OHMS = 0.05;

    private final Matching match;
    private final Findings findings;

    PartRules(Matching match, Findings findings) {
        this.match = match;
        this.findings = findings;
    }

    /** Plugs without a partner, and partners that are not sure. */
    void plugs() {
        boolean whole = match.neu().circuit().isPresent();
        for (String id : match.missing()) {
            Plug p = match.old().plugs().get(id);
            if (!whole) {
                findings.notKnown("plugs that the list does not name", id, true);
                continue;
            }
            findings.add(
                    Subject.PLUG,
                    Severity.BLOCKS,
                    id,
                    "no plug for " + p.name(),
                    "what it served stays dead",
                    "ask for the harness that has it",
                    Difference.COMPARED);
        }
        for (String id : match.extra()) {
            Plug p = match.neu().plugs().get(id);
            findings.add(
                    Subject.PLUG,
                    Severity.CARE,
                    "new " + id,
                    "one plug more: " + p.name(),
                    "an open plug takes in water, and bridged cavities set codes",
                    "cap it and tie it back",
                    Difference.PRACTICE);
        }
        match.plugs().values().forEach(this::sure);
    }

    private void sure(Pairing.Pair p) {
        if (p.sure() != Sure.AMBIGUOUS) return;
        findings.notKnown(
                "which plug is which",
                p.old() + " may be new " + p.neu() + " or be mistaken for "
                        + p.rival().orElseThrow(),
                true);
    }

    /** Fuses and ground studs, told by their words. */
    void joints(Circuit old, Circuit neu) {
        Map<String, List<Joints.Fuse>> fuses = new LinkedHashMap<>();
        neu.fuses().values().forEach(f -> fuses.computeIfAbsent(f.label(), k -> new ArrayList<>())
                .add(f));
        for (Joints.Fuse f : old.fuses().values()) {
            List<Joints.Fuse> same = fuses.getOrDefault(f.label(), List.of());
            if (same.isEmpty()) findings.notKnown("fuses", f.id() + " (" + f.label() + ")", true);
            else if (same.stream().noneMatch(n -> n.amperes() == f.amperes())) {
                double amperes = same.get(0).amperes();
                findings.add(
                        Subject.FUSE,
                        amperes > f.amperes() ? Severity.BLOCKS : Severity.CARE,
                        f.id(),
                        String.format(
                                Locale.ROOT,
                                "fuse of %s is %.0f A, the old one %.0f A",
                                f.label(),
                                amperes,
                                f.amperes()),
                        amperes > f.amperes()
                                ? "the old parts behind it are no longer protected"
                                : "it may open under the old load",
                        "fit the fuse that the engine's own drawing states, never a larger one",
                        Difference.PRACTICE);
            }
        }
        grounds(old, neu);
    }

    private void grounds(Circuit old, Circuit neu) {
        Map<String, Integer> count = new TreeMap<>();
        old.grounds().values().forEach(g -> count.merge(g.label(), 1, Integer::sum));
        neu.grounds().values().forEach(g -> count.merge(g.label(), -1, Integer::sum));
        count.forEach((label, n) -> {
            if (n > 0)
                findings.add(
                        Subject.GROUND,
                        Severity.BLOCKS,
                        label,
                        "no ring for this stud",
                        "its circuits lose their ground, or load another stud",
                        "ask for the harness of this build year",
                        Difference.COMPARED);
            if (n < 0)
                findings.add(
                        Subject.GROUND,
                        Severity.CARE,
                        label,
                        "one ground ring more",
                        "left off, its circuits have no ground",
                        "find the stud, clean it to bright metal, bolt the ring on",
                        Difference.PRACTICE);
        });
    }

    /** Resistance across each pair of network lines, from the resistors that hang on it. */
    void termination(Circuit old, Circuit neu) {
        List<Double> before = pairs(old);
        List<Double> after = pairs(neu);
        for (int i = 0; i < Math.min(before.size(), after.size()); i++) {
            double a = before.get(i);
            double b = after.get(i);
            if (a == b || Math.abs(a - b) <= SAME_OHMS * Math.min(a, b)) continue;
            findings.add(
                    Subject.TERMINATION,
                    Severity.BLOCKS,
                    "network",
                    "across the two lines with everything plugged in: " + ohms(b) + ", with the old one " + ohms(a),
                    b > a
                            ? "reflections: messages lost, more so on a long line"
                            : "the drivers are overloaded: messages lost",
                    "find the terminator that differs: a resistor built into a plug or node of one build year only",
                    "two resistors of 120 ohm, 60 ohm together: SAE J1939-11, from memory");
        }
        if (before.size() != after.size())
            findings.add(
                    Subject.TERMINATION,
                    Severity.BLOCKS,
                    "network",
                    after.size() + " networks, the old one " + before.size(),
                    "nodes do not hear each other",
                    "ask for the harness of this build year",
                    Difference.COMPARED);
    }

    private static String ohms(double ohms) {
        return Double.isFinite(ohms) ? String.format(Locale.ROOT, "%.0f ohm", ohms) : "no resistor";
    }

    private static List<Double> pairs(Circuit c) {
        Copper copper = Copper.of(c);
        Map<String, String> high = new TreeMap<>();
        Map<String, String> low = new TreeMap<>();
        Map<String, Double> siemens = new TreeMap<>();
        for (ControlUnit.Pin p : c.controlUnit().pins().values())
            if (p.function() instanceof ControlUnit.Network n) {
                (n.high() ? high : low).put(n.bus(), copper.net(p.cavity()));
                if (n.high()) siemens.merge(n.bus(), 1 / n.terminatorOhms(), Double::sum);
            }
        List<Double> out = new ArrayList<>();
        for (String bus : high.keySet()) {
            if (!low.containsKey(bus)) continue;
            double sum = siemens.getOrDefault(bus, 0.0);
            for (Device d : c.devices().values()) {
                List<String> nets =
                        d.terminals().values().stream().map(copper::net).toList();
                if (!nets.contains(high.get(bus)) || !nets.contains(low.get(bus))) continue;
                if (d.nature() instanceof Device.Node n) sum += 1 / n.terminatorOhms();
                if (d.nature() instanceof Device.Load l && l.word().equals("terminator")) sum += 1 / l.ohms();
            }
            out.add(1 / sum);
        }
        return out;
    }
}
