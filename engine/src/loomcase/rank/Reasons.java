package loomcase.rank;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import loomcase.faults.AfterWork;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Watch;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;

/** Turns scored groups into a {@link Ranking}: shares of places, what each suspect explains, and why others lose. */
final class Reasons {
    /** Probability from which a code counts as predicted. */
    private static final double PREDICTS = 0.5;

    /** Share of the posterior below which a group is not listed. */
    private static final double LISTED = 1e-4;

    private static final int MOST_LISTED = 12;

    /** Pieces of work named with a suspect. */
    private static final int MOST_WORK = 3;

    private final Circuit circuit;
    private final Layout layout;
    private final Predictor predictor;
    private final Likelihood likelihood;
    private final Evidence evidence;
    private final Map<String, AfterWork.Effect> effects;

    /** @param effects what work did to the odds of a hypothesis, by its id */
    Reasons(
            Circuit circuit,
            Layout layout,
            Predictor predictor,
            Likelihood likelihood,
            Evidence evidence,
            Map<String, AfterWork.Effect> effects) {
        this.effects = effects;
        this.circuit = circuit;
        this.layout = layout;
        this.predictor = predictor;
        this.likelihood = likelihood;
        this.evidence = evidence;
    }

    /**
     * @param logOutside log odds of a cause outside the model
     * @param logHidden log odds of a second fault beside a suspect that no code gives away
     */
    Ranking ranking(List<Group> groups, double logOutside, double logHidden, int hypotheses) {
        double total = logOutside;
        for (Group g : groups) total = Likelihood.logSum(total, g.logScore());
        Map<PlaceId, Double> roll = new LinkedHashMap<>();
        List<Ranking.Suspect> suspects = new ArrayList<>();
        double[] explained = new double[predictor.table().codes().size()];
        double unlisted = 0;
        for (Group g : groups) {
            double p = Math.exp(g.logScore() - total);
            boolean listed = suspects.size() < MOST_LISTED && p >= LISTED;
            if (!listed) unlisted += p;
            if (p < 1e-12) continue;
            credit(g, p, explained);
            List<Ranking.Member> members = members(g, p);
            members.forEach(m -> rollUp(m, roll));
            if (listed) suspects.add(suspect(suspects.size() + 1, g, p, members));
        }
        double outside = Math.exp(logOutside - total);
        return new Ranking(
                codes(explained, outside),
                suspects,
                sorted(roll),
                unlisted,
                outside,
                Math.exp(logHidden - Likelihood.logSum(total, logHidden)),
                groups.isEmpty() ? List.of() : losers(groups),
                hypotheses);
    }

    private void credit(Group g, double p, double[] explained) {
        Prediction q = g.leader().prediction();
        for (int c : likelihood.seen()) {
            double shown = q.of(c, likelihood.healthy(c));
            double ratio =
                    Math.exp(likelihood.ratio(c, shown, g.leader().hypothesis().comesAndGoes()));
            explained[c] += p * (1 - 1 / Math.max(1, ratio));
        }
    }

    private List<Ranking.CodeStatus> codes(double[] explained, double outside) {
        List<Ranking.CodeStatus> out = new ArrayList<>();
        for (Evidence.Seen s : evidence.codes()) {
            int c = predictor.table().index(s.code());
            List<Watch> watches = circuit.watches().stream()
                    .filter(w -> w.spn() == s.code().spn())
                    .toList();
            boolean known = !watches.isEmpty();
            String label = watches.stream()
                    .filter(w -> w.fmi() == s.code().fmi())
                    .findFirst()
                    .or(() -> watches.stream().findFirst())
                    .map(Watch::label)
                    .orElse("not in this circuit");
            out.add(new Ranking.CodeStatus(
                    s.code(), label, s.state(), s.count(), Math.min(1 - outside, explained[c]), known));
        }
        return out;
    }

    private List<Ranking.Member> members(Group g, double p) {
        List<Ranking.Member> out = new ArrayList<>();
        List<Group> sources = g.parts().isEmpty() ? List.of(g) : g.parts();
        for (Group source : sources)
            for (Candidate c : source.members()) {
                double share = p * Math.exp(c.logScore() - source.logScore());
                if (share < p * 1e-4 && !out.isEmpty()) continue;
                out.add(new Ranking.Member(
                        c.hypothesis().id(), c.words(), c.places().get(0), share, c.edits(), c.subject()));
            }
        out.sort(Comparator.comparingDouble((Ranking.Member m) -> -m.probability())
                .thenComparing(Ranking.Member::id));
        return out;
    }

    private Ranking.Suspect suspect(int rank, Group g, double p, List<Ranking.Member> members) {
        Map<PlaceId, Double> shares = new LinkedHashMap<>();
        members.forEach(m -> shares.merge(m.place(), m.probability(), Double::sum));
        Candidate leader = g.leader();
        Prediction q = leader.prediction();
        boolean passing = leader.hypothesis().comesAndGoes();
        List<Ranking.Piece> pieces = new ArrayList<>();
        TreeSet<Integer> touched = new TreeSet<>();
        for (int c : likelihood.seen()) touched.add(c);
        for (int k = 0; k < q.codes().length; k++) if (q.probability()[k] > 0.05) touched.add(q.codes()[k]);
        for (int c : touched) {
            if (!likelihood.isSeen(c) && !likelihood.isKnownAbsent(c)) continue;
            double shown = q.of(c, likelihood.healthy(c));
            pieces.add(new Ranking.Piece(
                    code(c), likelihood.foundWord(c), Math.exp(likelihood.ratio(c, shown, passing)), shown));
        }
        return new Ranking.Suspect(
                rank,
                p,
                sorted(shares),
                leader.words(),
                members,
                seen(leader, true),
                seen(leader, false),
                absent(leader),
                pieces,
                Stream.concat(work(g).stream(), tests(leader)).toList(),
                second(g));
    }

    private static Set<String> second(Group g) {
        if (g.parts().isEmpty()) return Set.of();
        return g.parts().get(1).members().stream().map(c -> c.hypothesis().id()).collect(Collectors.toSet());
    }

    /** Work done, as far as it concerns the fault, either of two, or others of the group. */
    private List<Ranking.TestPiece> work(Group g) {
        String after = evidence.codes().isEmpty() ? "no codes after it" : "codes there after it";
        Map<String, Ranking.TestPiece> out = new LinkedHashMap<>();
        for (Group part : g.parts().isEmpty() ? List.of(g) : g.parts())
            for (Candidate c : part.members()) {
                AfterWork.Effect e = effects.get(c.hypothesis().id());
                if (e == null || out.size() >= MOST_WORK) continue;
                String words = c == part.leader() ? e.words() : e.words() + ", a fault there";
                out.putIfAbsent(e.words(), new Ranking.TestPiece(words, after, e.odds()));
            }
        return List.copyOf(out.values());
    }

    private Stream<Ranking.TestPiece> tests(Candidate c) {
        List<Ranking.TestPiece> out = new ArrayList<>();
        for (int t = 0; t < c.logTests().length; t++) {
            Evidence.Tested made = evidence.tested().get(t);
            out.add(new Ranking.TestPiece(made.test().words(), made.outcome().words(), Math.exp(c.logTests()[t])));
        }
        return out.stream();
    }

    private Code code(int number) {
        return predictor.table().codes().get(number);
    }

    private List<Code> seen(Candidate c, boolean explains) {
        List<Code> out = new ArrayList<>();
        for (int n : likelihood.seen()) {
            double shown = c.prediction().of(n, likelihood.healthy(n));
            boolean raised = likelihood.ratio(n, shown, c.hypothesis().comesAndGoes()) > Math.log(3);
            if (raised == explains) out.add(code(n));
        }
        return out;
    }

    private List<Code> absent(Candidate c) {
        List<Code> out = new ArrayList<>();
        for (int k = 0; k < c.prediction().codes().length; k++) {
            int n = c.prediction().codes()[k];
            if (likelihood.isKnownAbsent(n) && c.prediction().probability()[k] > PREDICTS) out.add(code(n));
        }
        return out;
    }

    private static List<Ranking.PlaceShare> sorted(Map<PlaceId, Double> shares) {
        return shares.entrySet().stream()
                .map(e -> new Ranking.PlaceShare(e.getKey(), e.getValue()))
                .sorted(Comparator.comparingDouble((Ranking.PlaceShare s) -> -s.probability())
                        .thenComparing(Ranking.PlaceShare::place))
                .toList();
    }

    /** Adds a member's probability to its place and to what contains it. */
    private void rollUp(Ranking.Member m, Map<PlaceId, Double> roll) {
        double p = m.probability();
        roll.merge(m.place(), p, Double::sum);
        if (m.place().kind() == PlaceId.Kind.CAVITY)
            roll.merge(
                    new PlaceId(
                            PlaceId.Kind.CONNECTOR, Names.connectorOf(m.place().id())),
                    p,
                    Double::sum);
        if (m.place().kind() == PlaceId.Kind.SPLICE)
            roll.merge(
                    new PlaceId(
                            PlaceId.Kind.BRANCH,
                            circuit.splices().get(m.place().id()).branch()),
                    p,
                    Double::sum);
        if (m.place().kind() != PlaceId.Kind.WIRE) return;
        List<Layout.Run> runs = layout.runs(m.place().id());
        double metres = runs.stream().mapToDouble(Layout.Run::metres).sum();
        for (Layout.Run run : runs)
            roll.merge(new PlaceId(PlaceId.Kind.BRANCH, run.branch()), p * run.metres() / metres, Double::sum);
    }

    /** For every device with a code seen, its own best fault, when that is not what won. */
    private List<Ranking.Loser> losers(List<Group> groups) {
        Group winner = groups.get(0);
        TreeSet<String> blamed = new TreeSet<>();
        for (Evidence.Seen s : evidence.codes())
            circuit.watches().stream()
                    .filter(w -> w.spn() == s.code().spn() && !w.device().isEmpty())
                    .forEach(w -> blamed.add(w.device()));
        Map<String, Candidate> bests = new TreeMap<>();
        Set<String> won = new HashSet<>();
        for (Group g : groups) {
            if (!g.parts().isEmpty()) continue;
            for (Candidate c : g.members()) {
                String device = c.places().get(0).id();
                if (!c.hypothesis().family().startsWith("device.") || !blamed.contains(device)) continue;
                Candidate before = bests.get(device);
                if (before != null && before.logScore() >= c.logScore()) continue;
                bests.put(device, c);
                won.remove(device);
                if (g == winner || winner.parts().contains(g)) won.add(device);
            }
        }
        List<Ranking.Loser> out = new ArrayList<>();
        for (Candidate best : bests.values()) {
            if (won.contains(best.places().get(0).id()) || best.prediction().codes().length == 0) continue;
            out.add(new Ranking.Loser(
                    best.places().get(0),
                    best.words(),
                    Math.exp(winner.logScore() - best.logScore()),
                    seen(best, false),
                    absent(best)));
        }
        out.sort(Comparator.comparingDouble(Ranking.Loser::timesLess).thenComparing(Ranking.Loser::place));
        return out;
    }
}
