package loomcase.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import loomcase.model.Edit;

/**
 * A network as a SPICE deck, so that an independent simulator can be asked the same question.
 *
 * <p>The deck shares nothing with our search for regions: a linear element is a resistor, with a voltage source in series
 * when it has one; a piecewise-linear part is one behavioural current source per pair of nodes, whose expression holds
 * every region at once. A border at which the current is continuous is written {@code x < border ? below : above}. A
 * border at which it jumps (a relay contact, and every supply gate) becomes a ramp of {@value #RAMP_VOLTS} V about the
 * threshold, because a simulator cannot step over a jump; a solution inside such a ramp is one the exact network does
 * not have. Every node has its insulation resistor. There are no initial guesses ({@code .nodeset}) in the deck.
 *
 * <p>The one thing taken over from our solution is which fuses have opened: a fuse that opens stays open, which a steady
 * state cannot say. Source of the syntax: ngspice 39 manual, chapters 3 and 5 (elements R, V, B; ternary operator, u2).
 */
final class SpiceDeck {
    /** Width in volts of the ramp that stands for a jump; half of it lies on either side of the threshold. */
    static final double RAMP_VOLTS = 1e-3;

    /**
     * ngspice command that finds the operating point as the end of a transient from zero instead of by Newton steps, which
     * on a current-limited supply may jump between idle and limit for ever. Its 200 s are 20 time constants of an unloaded
     * supply, 10 nF on 1e9 ohm.
     */
    static final String TRANSIENT_START = "optran 0 0 0 5 200 0";

    private final Netlist net;
    private final StringBuilder out = new StringBuilder();

    private SpiceDeck(Netlist net) {
        this.net = net;
    }

    /**
     * Writes the deck.
     *
     * @param title first line of the deck
     * @param edits what was done to the healthy network, for the comment
     * @param net the network, edits and opened fuses included
     * @param openedFuses names of the fuses that our solver found open, for the comment
     */
    static String of(String title, List<Edit> edits, Netlist net, List<String> openedFuses) {
        SpiceDeck deck = new SpiceDeck(net);
        deck.head(title, edits, openedFuses);
        for (int i = 0; i < net.elements().size(); i++) deck.element(i);
        for (int p = 0; p < net.parts().size(); p++) deck.part(p);
        for (int n = 1; n < net.size(); n++) deck.line("Rleak" + n + " " + node(n) + " 0 " + Netlist.LEAK_OHMS);
        for (int p = 0; p < net.parts().size(); p++) deck.settle(p);
        deck.line(".op");
        deck.line(".end");
        return deck.out.toString();
    }

    /** Name of a node in the deck. */
    static String node(int number) {
        return number == 0 ? "0" : "n" + number;
    }

    private void line(String text) {
        out.append(text).append('\n');
    }

    private void head(String title, List<Edit> edits, List<String> openedFuses) {
        line("* " + title.replaceAll("\\s+", " "));
        line("* Exported by Loomcase. Node 0 is the chassis. Ohms, volts, amperes.");
        for (Edit edit : edits) line("* Edit: " + edit);
        line(
                openedFuses.isEmpty()
                        ? "* No fuse is open."
                        : "* Open fuses, found by Loomcase and not by this deck: " + openedFuses);
        line("* Supply gates and relay contacts are ramps " + RAMP_VOLTS + " V wide about their threshold.");
        for (int n = 1; n < net.size(); n++)
            line("* " + node(n) + " = " + net.nodeNames().get(n));
        line("* Where ngspice finds no operating point by itself, start it with the command: " + TRANSIENT_START);
        line(".options reltol=1e-6 vntol=1e-9 abstol=1e-12 itl1=100 method=gear");
    }

    private void element(int index) {
        Netlist.Element e = net.elements().get(index);
        line("* " + e.name());
        if (e.volts() == 0) {
            line("R" + index + " " + node(e.a()) + " " + node(e.b()) + " " + e.ohms());
            return;
        }
        String middle = "m" + index;
        line("R" + index + " " + node(e.a()) + " " + middle + " " + e.ohms());
        line("V" + index + " " + middle + " " + node(e.b()) + " DC " + e.volts());
    }

    /** A supply gets a capacitor: it carries no direct current and lets a transient start settle where it settles. */
    private void settle(int index) {
        Part part = net.parts().get(index);
        if (part.name().startsWith(ControlUnitParts.rail("")))
            line("C" + index + " " + node(part.probe().p()) + " "
                    + node(part.probe().n()) + " 10n");
    }

    private record Pair(int from, int to) {}

    private void part(int index) {
        Part part = net.parts().get(index);
        line("* " + part.name());
        Map<Pair, List<List<Stamp>>> byPair = new LinkedHashMap<>();
        for (int k = 0; k < part.regions().size(); k++)
            for (Stamp s : part.stamps(k))
                byPair.computeIfAbsent(new Pair(s.from(), s.to()), key -> empty(part))
                        .get(k)
                        .add(s);
        int count = 0;
        for (Map.Entry<Pair, List<List<Stamp>>> e : byPair.entrySet()) {
            String current = regions(part, e.getValue());
            String gated = part.gate()
                    .map(g -> ramp(difference(g.plus(), g.minus()), g.volts()) + " * (" + current + ")")
                    .orElse(current);
            line("B" + index + "x" + count++ + " " + node(e.getKey().from()) + " "
                    + node(e.getKey().to()) + " I = " + gated);
        }
    }

    private static List<List<Stamp>> empty(Part part) {
        List<List<Stamp>> out = new ArrayList<>();
        for (int k = 0; k < part.regions().size(); k++) out.add(new ArrayList<>());
        return out;
    }

    /** The current over all regions, nested from the highest border down. */
    private static String regions(Part part, List<List<Stamp>> regions) {
        String x = probe(part.probe());
        String text = current(regions.get(regions.size() - 1));
        for (int k = part.breaks().length - 1; k >= 0; k--) {
            double border = part.breaks()[k];
            String below = current(regions.get(k));
            if (continuous(part.probe(), border, regions.get(k), regions.get(k + 1)))
                text = "((" + x + " < " + border + ") ? (" + below + ") : (" + text + "))";
            else {
                String share = ramp(x, border);
                text = "((1 - " + share + ") * (" + below + ") + " + share + " * (" + text + "))";
            }
        }
        return text;
    }

    /** 0 below the threshold, 1 above it, linear over the ramp. */
    private static String ramp(String x, double threshold) {
        return "u2((" + x + " - (" + threshold + ")) / " + RAMP_VOLTS + " + 0.5)";
    }

    private static String probe(Part.Probe probe) {
        String x = difference(probe.p(), probe.n());
        return probe.factor() == 0
                ? x
                : "(" + x + " - " + probe.factor() + " * " + difference(probe.p2(), probe.n2()) + ")";
    }

    private static String current(List<Stamp> stamps) {
        if (stamps.isEmpty()) return "0";
        List<String> terms = new ArrayList<>();
        for (Stamp s : stamps) {
            if (s.siemens() != 0) terms.add("(" + s.siemens() + ") * " + difference(s.plus(), s.minus()));
            if (s.amperes() != 0) terms.add("(" + s.amperes() + ")");
        }
        return terms.isEmpty() ? "0" : String.join(" + ", terms);
    }

    private static String difference(int plus, int minus) {
        if (plus == minus) return "0";
        if (minus == 0) return "V(" + node(plus) + ")";
        if (plus == 0) return "(-V(" + node(minus) + "))";
        return String.format(Locale.ROOT, "V(%s,%s)", node(plus), node(minus));
    }

    /** True when two regions give the same current everywhere on their border: they differ by a multiple of x − border. */
    private static boolean continuous(Part.Probe probe, double border, List<Stamp> below, List<Stamp> above) {
        Map<Integer, Double> step = new HashMap<>();
        double constant = 0;
        double size = 0;
        for (List<Stamp> side : Arrays.asList(below, above)) {
            double sign = side == above ? 1 : -1;
            for (Stamp s : side) {
                step.merge(s.plus(), sign * s.siemens(), Double::sum);
                step.merge(s.minus(), -sign * s.siemens(), Double::sum);
                constant += sign * s.amperes();
                size = Math.max(size, Math.max(Math.abs(s.siemens()), Math.abs(s.amperes())));
            }
        }
        double slope = probe.p() != 0 ? step.getOrDefault(probe.p(), 0.0) : -step.getOrDefault(probe.n(), 0.0);
        double[] weights = {1, -1, -probe.factor(), probe.factor()};
        int[] nodes = {probe.p(), probe.n(), probe.p2(), probe.n2()};
        for (int i = 0; i < 4; i++) step.merge(nodes[i], -slope * weights[i], Double::sum);
        step.remove(0);
        double tiny = 1e-9 * size;
        return Math.abs(constant + slope * border) <= tiny
                && step.values().stream().allMatch(v -> Math.abs(v) <= tiny);
    }
}
