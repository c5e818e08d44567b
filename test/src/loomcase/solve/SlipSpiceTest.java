package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import loomcase.demo.Harness;
import loomcase.faults.AfterWork;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.faults.WorkDone;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.Watch;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Slips in the work whose codes come from ngspice (independent simulator, https://ngspice.sourceforge.io), live: its volts
 * are held against the thresholds of the circuit file, and the codes that this gives are ranked with the work known.
 */
class SlipSpiceTest {
    private static final Circuit CIRCUIT = Harness.TEACHING.circuit();
    private static final List<String> POINTS = List.of("key-on", "idle-warm");
    private static final List<String> PLUGS = List.of("J1", "C1", "C2", "C3");

    /** Supply and ground of the control unit, and the driver, whose watch takes amperes. */
    private static final List<String> LEFT_OUT = List.of("J1/1", "J1/2", "J1/5");

    /**
     * A suspect counts as first that has this share of the first one's: a wire of the supply worn to ground sets the codes
     * of a supply swapped with its return, and the odds of both are about even.
     */
    private static final double LEVEL = 0.95;

    private record Deck(int slip, NetworkSolver.Instant instant, String operatingPoint, Solution ours, String text) {}

    @Test
    void slipsAreFoundFromTheSimulatorsCodes(@TempDir Path folder) throws Exception {
        List<Hypothesis> slips = slips();
        NetworkSolver solver = new NetworkSolver(CIRCUIT, Harness.TEACHING.layout());
        List<Deck> decks = new ArrayList<>();
        for (int i = 0; i < slips.size(); i++)
            for (String op : POINTS) {
                List<Edit> edits = ((Hypothesis.Fixed) slips.get(i).cause()).edits();
                NetworkSolver.Instant instant = solver.at(op, "rest");
                Solution s = instant.solve(edits);
                decks.add(new Deck(i, instant, op, s, instant.spiceDeck(edits)));
            }
        List<Optional<double[]>> volts = Ngspice.run(
                folder,
                decks.stream().map(Deck::text).toList(),
                decks.stream().map(d -> d.ours().nodeVolts().length).toList());
        Map<Integer, List<Code>> codes = new LinkedHashMap<>();
        for (int d = 0; d < decks.size(); d++) {
            List<Code> here = codes.computeIfAbsent(decks.get(d).slip(), k -> new ArrayList<>());
            for (Code c : conditions(decks.get(d), volts.get(d).orElseThrow())) if (!here.contains(c)) here.add(c);
        }
        int set = 0;
        List<String> missed = new ArrayList<>();
        for (int i = 0; i < slips.size(); i++) {
            if (codes.get(i).isEmpty()) continue;
            set++;
            if (!found(slips.get(i), codes.get(i))) missed.add(slips.get(i).id() + " " + codes.get(i));
        }
        assertTrue(set >= 15, set + " of " + slips.size() + " slips set a code");
        assertEquals(List.of(), missed, missed.size() + " of " + set);
    }

    private static List<Hypothesis> slips() {
        Map<String, Boolean> worked = new TreeMap<>();
        PLUGS.forEach(p -> worked.put(p, true));
        return AfterWork.weigh(
                        CIRCUIT,
                        Harness.TEACHING.layout(),
                        Priors.builtIn(),
                        Harness.TEACHING.hypotheses(),
                        WorkDone.apart(worked))
                .hypotheses()
                .stream()
                .filter(h -> h.family().equals("common.swapped-cavities")
                        || h.family().equals("contact.backed-out"))
                .filter(h -> PLUGS.contains(Names.connectorOf(h.place().id())))
                .filter(h -> h.places().stream().noneMatch(p -> LEFT_OUT.contains(p.id())))
                .toList();
    }

    /** Codes whose threshold the simulator's volts cross, pin against the control unit's own ground. */
    private static List<Code> conditions(Deck deck, double[] volts) {
        int ground = deck.instant()
                .node(Names.inside(CIRCUIT.controlUnit().id(), "ground"))
                .orElseThrow();
        List<Code> out = new ArrayList<>();
        for (Watch w : CIRCUIT.watches()) {
            if (!(w.measure() instanceof Watch.PinVolts v)
                    || !v.phase().equals("rest")
                    || !w.operatingPoints().contains(deck.operatingPoint())) continue;
            OptionalInt node = deck.instant().node(Names.mating(v.pin()));
            if (node.isEmpty()) continue;
            double value = volts[node.getAsInt()] - volts[ground];
            if (w.limit().above()
                    ? value > w.limit().value()
                    : value < w.limit().value()) out.add(new Code(w.spn(), w.fmi()));
        }
        return out;
    }

    private static boolean found(Hypothesis slip, List<Code> codes) {
        Evidence e = new Evidence(
                codes.stream()
                        .map(c -> new Evidence.Seen(c, Evidence.State.ACTIVE, OptionalInt.empty()))
                        .toList(),
                POINTS,
                List.of(),
                WorkDone.apart(Map.of(Names.connectorOf(slip.place().id()), true)));
        Ranking r = Harness.TEACHING.ranker().rank(e, share -> {});
        double first = r.suspects().get(0).probability();
        return r.suspects().stream()
                .filter(s -> s.probability() > LEVEL * first)
                .anyMatch(s -> s.members().stream().anyMatch(m -> m.id().equals(slip.id())));
    }
}
