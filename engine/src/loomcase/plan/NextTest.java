package loomcase.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import loomcase.model.AccessStep;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.model.Wire;
import loomcase.rank.Ranking;
import loomcase.solve.NetworkSolver;

/**
 * The voltage reading that best separates the hypotheses left, for the access work it takes.
 *
 * <p>Candidates: the voltage, plugs mated and key on, from each cavity on the circuits concerned to the chassis. Every
 * hypothesis of the listed suspects predicts it from the same network that predicted the codes; predictions closer than
 * {@value #RESOLUTION_VOLTS} V count as one outcome. Value of a reading = expected drop in entropy, in bits, per minute.
 * <b>Bounded:</b> one kind of test, one step ahead, and no money.
 *
 * @param test id, such as {@code volts C-ECT/1}
 * @param points the two points
 * @param minutes access and reading together
 * @param bits expected drop in entropy
 * @param outcomes what may be read and what it would mean, most probable first
 * @param setup state of engine and plugs, in words
 */
public record NextTest(
        String test, List<String> points, double minutes, double bits, List<Outcome> outcomes, String setup) {
    private static final double RESOLUTION_VOLTS = 0.15;

    /** Minutes for the reading itself (M07, M08 of the measurement list: 5 typical; common practice, no source). */
    private static final double READING_MINUTES = 5;

    private static final double LEAST_BITS = 0.02;

    /**
     * One result the reading may give.
     *
     * @param volts predicted reading
     * @param probability of that result
     * @param meaning the fault it would point at first
     */
    public record Outcome(double volts, double probability, String meaning) {}

    private record Weighed(double weight, List<Edit> edits, String words) {}

    /** The best reading, or nothing when no reading would tell the hypotheses apart. */
    public static Optional<NextTest> choose(Circuit circuit, NetworkSolver solver, Ranking ranking) {
        List<Weighed> left = hypotheses(ranking);
        if (left.size() < 2) return Optional.empty();
        OperatingPoint op = circuit.operatingPoints().values().stream()
                .filter(o -> !o.engineRunning())
                .findFirst()
                .orElse(circuit.operatingPoints().values().iterator().next());
        NetworkSolver.Instant instant = solver.at(op.id(), op.phases().get(0).id());
        List<String> points = points(circuit, ranking);
        List<double[]> volts = new ArrayList<>();
        for (Weighed h : left) {
            var s = instant.solve(h.edits());
            volts.add(points.stream()
                    .map(s::volts)
                    .mapToDouble(v -> v.orElse(Double.NaN))
                    .toArray());
        }
        List<NextTest> tests = new ArrayList<>();
        for (int i = 0; i < points.size(); i++)
            test(circuit, op, points.get(i), i, left, volts).ifPresent(tests::add);
        return tests.stream()
                .max(Comparator.comparingDouble((NextTest t) -> t.bits / t.minutes)
                        .thenComparing(t -> t.points.get(0), Comparator.reverseOrder()));
    }

    private static List<Weighed> hypotheses(Ranking ranking) {
        List<Weighed> out = new ArrayList<>();
        for (Ranking.Suspect s : ranking.suspects())
            for (Ranking.Member m : s.members())
                if (m.probability() > 1e-3) out.add(new Weighed(m.probability(), m.edits(), m.words()));
        return out;
    }

    /** Cavities on the nets of the suspected places, harness side. */
    private static List<String> points(Circuit circuit, Ranking ranking) {
        Set<String> near = new HashSet<>();
        for (Ranking.Suspect s : ranking.suspects())
            for (Ranking.PlaceShare p : s.places()) near.add(p.place().id());
        TreeSet<String> out = new TreeSet<>();
        for (Wire w : circuit.wires().values())
            if (near.contains(w.id()) || near.contains(w.from()) || near.contains(w.to()))
                for (String end : List.of(w.from(), w.to()))
                    if (circuit.connectors().containsKey(Names.connectorOf(end))) out.add(end);
        for (var d : circuit.devices().values())
            if (near.contains(d.id())) out.addAll(d.terminals().values());
        return List.copyOf(out);
    }

    private static Optional<NextTest> test(
            Circuit circuit, OperatingPoint op, String point, int index, List<Weighed> left, List<double[]> volts) {
        List<Integer> order = new ArrayList<>();
        double total = 0;
        for (int h = 0; h < left.size(); h++) {
            if (Double.isNaN(volts.get(h)[index])) return Optional.empty();
            order.add(h);
            total += left.get(h).weight();
        }
        order.sort(Comparator.comparingDouble(h -> volts.get(h)[index]));
        List<Outcome> outcomes = new ArrayList<>();
        double bits = 0;
        int from = 0;
        for (int i = 1; i <= order.size(); i++) {
            if (i < order.size()
                    && volts.get(order.get(i))[index] - volts.get(order.get(i - 1))[index] < RESOLUTION_VOLTS) continue;
            List<Integer> here = order.subList(from, i);
            double share = here.stream().mapToDouble(h -> left.get(h).weight()).sum() / total;
            int top = here.stream()
                    .max(Comparator.comparingDouble((Integer h) -> left.get(h).weight())
                            .thenComparing(Comparator.reverseOrder()))
                    .orElseThrow();
            outcomes.add(new Outcome(volts.get(top)[index], share, left.get(top).words()));
            bits -= share * Math.log(share) / Math.log(2);
            from = i;
        }
        if (bits < LEAST_BITS) return Optional.empty();
        outcomes.sort(Comparator.comparingDouble((Outcome o) -> -o.probability()));
        double minutes = READING_MINUTES + accessMinutes(circuit, Names.connectorOf(point));
        return Optional.of(new NextTest(
                "volts " + point,
                List.of(point, Names.CHASSIS),
                minutes,
                bits,
                outcomes,
                op.label() + ", plugs mated"));
    }

    /** Minutes of all access steps that a connector needs, each once. */
    private static double accessMinutes(Circuit circuit, String connector) {
        Connector c = circuit.connectors().get(connector);
        Set<String> steps = new HashSet<>();
        c.access().forEach(step -> need(circuit, step, steps));
        return steps.stream()
                .mapToDouble(s -> circuit.access().get(s).minutes())
                .sum();
    }

    private static void need(Circuit circuit, String step, Set<String> steps) {
        if (!steps.add(step)) return;
        AccessStep s = circuit.access().get(step);
        s.needs().forEach(n -> need(circuit, n, steps));
    }
}
