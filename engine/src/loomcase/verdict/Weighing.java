package loomcase.verdict;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import loomcase.faults.WorkDone;
import loomcase.model.PlaceId;
import loomcase.model.Zone;
import loomcase.policy.EvidenceFact;
import loomcase.policy.RemedyFact;
import loomcase.policy.RemedyRuling;
import loomcase.verdict.RepairCosts.Figures;

/** Turns causes, remedies, rulings and figures into {@link Stakes}; every "what if" of the verdict goes through here. */
final class Weighing {
    /** Most probable failure of one repair, whatever the zone. */
    private static final double MOST_FAILURE = 0.9;

    private final Loom loom;
    private final List<Cause> causes;
    private final List<Remedy> singles;
    private final List<Together> together;
    private final List<Remedy> remedies;
    private final List<Stakes.Pair> pairs;
    private final Remedies facts;
    private final Rulings.Rules rules;
    private final Function<OptionalInt, Rulings> plain;
    private final Map<Integer, Rulings> said = new HashMap<>();
    private final Map<String, String> traces = new HashMap<>();
    private final Map<String, int[]> cleanedBy = new HashMap<>();
    private final double[][] covered;

    /** How often the single remedies were done already, before the codes were read last; by id, those that were. */
    private final Map<String, Integer> timesDone;

    /**
     * What is asked of the weighing.
     *
     * @param figures minutes, rates of success and failure
     * @param rates price of an hour
     * @param open access steps open
     * @param circuits damaged circuits, empty for each remedy's own number
     * @param hiddenShift how much more or less likely hidden damage is than the figures say: −1 never, 0 as they say, 1
     *     always, in between in proportion
     */
    record Question(Figures figures, Rates rates, Set<String> open, OptionalInt circuits, double hiddenShift) {
        Question with(Figures other) {
            return new Question(other, rates, open, circuits, hiddenShift);
        }

        Question with(Rates other) {
            return new Question(figures, other, open, circuits, hiddenShift);
        }

        Question withCircuits(int n) {
            return new Question(figures, rates, open, OptionalInt.of(n), hiddenShift);
        }

        Question withHiddenShift(double shift) {
            return new Question(figures, rates, open, circuits, shift);
        }

        Question withOpen(Set<String> other) {
            return new Question(figures, rates, other, circuits, hiddenShift);
        }
    }

    Weighing(Loom loom, List<Cause> causes, Rulings.Rules rules) {
        this(loom, causes, List.of(), rules);
    }

    /**
     * Single remedies only.
     *
     * @param known causes known to be there, numbered behind those of the posterior
     */
    Weighing(Loom loom, List<Cause> posterior, List<Cause> known, Rulings.Rules rules) {
        this.loom = loom;
        this.causes = Stream.concat(posterior.stream(), known.stream()).toList();
        this.facts = new Remedies(loom, posterior, known);
        this.singles = facts.all();
        this.together = List.of();
        this.remedies = singles;
        this.rules = rules;
        this.plain = circuits -> ask(circuits, 0);
        this.pairs = pairs(causes);
        this.timesDone = timesDone(loom, singles);
        this.covered = new double[singles.size()][causes.size()];
        for (int r = 0; r < covered.length; r++) {
            traces.put(singles.get(r).id(), facts.trace(singles.get(r)));
            cleanedBy.put(singles.get(r).id(), cleaning(r));
            for (int h = 0; h < causes.size(); h++)
                covered[r][h] = causes.get(h).covered(singles.get(r));
        }
    }

    private static Map<String, Integer> timesDone(Loom loom, List<Remedy> remedies) {
        List<WorkDone.Job> done = loom.situation().done();
        if (done.isEmpty()) return Map.of();
        Handiwork handiwork = new Handiwork(loom.circuit, loom.layout);
        Map<String, Integer> out = new LinkedHashMap<>();
        for (Remedy r : remedies) {
            int times = handiwork.timesDone(r, done);
            if (times > 0) out.put(r.id(), times);
        }
        return out;
    }

    private Weighing(Weighing of, List<Together> together) {
        this.loom = of.loom;
        this.causes = of.causes;
        this.facts = of.facts;
        this.singles = of.singles;
        this.rules = of.rules;
        this.plain = of::rulings;
        this.pairs = of.pairs;
        this.covered = of.covered;
        this.traces.putAll(of.traces);
        this.cleanedBy.putAll(of.cleanedBy);
        this.timesDone = of.timesDone;
        this.together = List.copyOf(together);
        this.remedies = Stream.concat(singles.stream(), together.stream().map(this::made))
                .toList();
    }

    private Remedy made(Together t) {
        Remedy first = singles.get(number(t.first()));
        return t instanceof Together.AndEngine e
                ? facts.andEngine(first, cause(e))
                : Remedy.both(first, singles.get(number(((Together.Two) t).second())));
    }

    private Cause cause(Together.AndEngine e) {
        return causes.stream()
                .filter(c -> c.id().equals(e.condition()))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no cause " + e.condition() + " in this situation"));
    }

    /** The same with some single remedies also weighed as done in one visit; they stand behind the single ones. */
    Weighing with(List<Together> together) {
        return together.isEmpty() ? this : new Weighing(this, together);
    }

    /** What is weighed as done in one visit. */
    List<Together> together() {
        return together;
    }

    private int number(String single) {
        for (int r = 0; r < singles.size(); r++) if (singles.get(r).id().equals(single)) return r;
        throw new IllegalArgumentException("no remedy " + single + " in this situation");
    }

    private static List<Stakes.Pair> pairs(List<Cause> causes) {
        Map<String, Integer> number = new HashMap<>();
        for (int h = 0; h < causes.size(); h++) number.put(causes.get(h).id(), h);
        List<Stakes.Pair> out = new ArrayList<>();
        for (int h = 0; h < causes.size(); h++) {
            Cause c = causes.get(h);
            if (c.isPair())
                out.add(new Stakes.Pair(
                        h, half(c.halves().get(0), number), half(c.halves().get(1), number)));
        }
        return out;
    }

    private static Stakes.Half half(Map<String, Double> shares, Map<String, Integer> number) {
        List<String> ids = shares.keySet().stream()
                .sorted(Comparator.comparing(number::get))
                .toList();
        return new Stakes.Half(
                ids.stream().mapToInt(number::get).toArray(),
                ids.stream().mapToDouble(shares::get).toArray());
    }

    /** Ids of the single remedies that were done already, before the codes were read last. */
    List<String> doneBefore() {
        return List.copyOf(timesDone.keySet());
    }

    List<Cause> causes() {
        return causes;
    }

    /** Single remedies, and behind them what is done together. */
    List<Remedy> remedies() {
        return remedies;
    }

    List<Remedy> singles() {
        return singles;
    }

    Remedies facts() {
        return facts;
    }

    List<Stakes.Pair> pairs() {
        return pairs;
    }

    Loom loom() {
        return loom;
    }

    double[] weights() {
        return causes.stream().mapToDouble(Cause::probability).toArray();
    }

    /**
     * Remedies that take away what one leaves behind: a section that holds its branches, the harness, and the same work once
     * more where nothing was seen that spreads.
     */
    private int[] cleaning(int remedy) {
        Remedy left = singles.get(remedy);
        boolean spreads = !traces.get(left.id()).equals("none");
        return IntStream.range(0, singles.size())
                .filter(x -> x == remedy ? !spreads : singles.get(x).replaces() && facts.holds(singles.get(x), left))
                .toArray();
    }

    /** What the rules say, with so many circuits damaged; asked once for each number. */
    Rulings rulings(OptionalInt circuits) {
        return said.computeIfAbsent(
                circuits.orElse(0), n -> plain.apply(circuits).withJoint(parts()));
    }

    /** What the rules would say after one more test. */
    Rulings rulingsAfterTest() {
        return ask(OptionalInt.empty(), 1).withJoint(parts());
    }

    /** Ids of the single remedies that each remedy of several is made of. */
    private Map<String, List<String>> parts() {
        Map<String, List<String>> out = new LinkedHashMap<>();
        for (int i = 0; i < together.size(); i++) {
            Together t = together.get(i);
            out.put(
                    remedies.get(singles.size() + i).id(),
                    t instanceof Together.Two two ? List.of(two.first(), two.second()) : List.of(t.first()));
        }
        return out;
    }

    private Rulings ask(OptionalInt circuits, int moreTests) {
        List<RemedyFact> seen =
                singles.stream().map(r -> facts.fact(r, circuits(r, circuits))).toList();
        return rules.apply(evidence(moreTests), seen);
    }

    private EvidenceFact evidence(int moreTests) {
        Situation s = loom.situation();
        double place = 0;
        double branch = 0;
        for (var p : s.ranking().rollup())
            switch (p.place().kind()) {
                case BRANCH -> branch = Math.max(branch, p.probability());
                case CONNECTOR -> {}
                default -> place = Math.max(place, p.probability());
            }
        return new EvidenceFact(
                s.readings(),
                s.tests() + moreTests,
                s.looks(),
                Math.min(1, place),
                Math.min(1, branch),
                Math.min(1, s.ranking().unexplained()));
    }

    /** Which remedies no rule forbids, in their order. */
    boolean[] allowed(Rulings rulings) {
        boolean[] out = new boolean[remedies.size()];
        for (int i = 0; i < out.length; i++)
            out[i] = !rulings.says(remedies.get(i).id(), RemedyRuling.Effect.FORBID);
        return out;
    }

    Stakes stakes(Question q, Rulings rulings) {
        List<Stakes.Act> acts = new ArrayList<>();
        double[] shows = shows(q.figures());
        for (int r = 0; r < singles.size(); r++) acts.add(act(singles.get(r), covered[r], shows, q));
        require(acts, rulings);
        acts.replaceAll(a -> a.ofTwoFaults(pairs));
        for (int i = 0; i < together.size(); i++) acts.add(made(together.get(i), singles.size() + i, acts, q));
        return new Stakes(
                weights(),
                pairs,
                acts,
                q.rates(),
                new Stakes.Afterwards(
                        q.figures().get("minutes.diagnosis"),
                        q.figures().get("hours.comeback"),
                        q.figures().get("minutes.outside")));
    }

    private Stakes.Act act(Remedy r, double[] share, double[] shows, Question q) {
        int n = circuits(r, q.circuits());
        double hurt = n + unnamed(r, q.figures());
        double work = 0;
        for (Remedy.Task t : r.tasks()) work += Remedy.times(minutes(t, q.figures()), t.eachCircuit(), hurt);
        if (!r.option().equals("monitor")) work += q.figures().get("minutes.check");
        double parts = 0;
        for (Remedy.Part p : r.parts()) parts += Remedy.times(p.sum().doubleValue(), p.eachCircuit(), hurt);
        double[] cures = new double[causes.size()];
        double again = Math.pow(q.figures().get("share.again"), timesDone.getOrDefault(r.id(), 0));
        double[] hidden = new double[causes.size()];
        String trace = traces.get(r.id());
        for (int h = 0; h < cures.length; h++) {
            Cause c = causes.get(h);
            if (share[h] == 0 || c.isPair()) continue;
            cures[h] = again * share[h] * fix(r, c, q.figures());
            hidden[h] = hidden(r, c, trace, q);
        }
        double access = loom.minutes(r.access());
        return new Stakes.Act(
                r.id(),
                r.size(),
                new Stakes.Bill(nowMinutes(r, q), work, parts),
                new Stakes.Bill(access, work, parts),
                cures,
                r.option().equals("monitor") ? new double[causes.size()] : shows,
                fails(r, n, q.figures()),
                hidden,
                cleanedBy.get(r.id()),
                new int[0]);
    }

    private Stakes.Act made(Together t, int number, List<Stakes.Act> acts, Question q) {
        Remedy r = remedies.get(number);
        Stakes.Act act = t instanceof Together.AndEngine e ? andEngine(r, e, acts, q) : joint(r, acts, q);
        return act.ofTwoFaults(pairs);
    }

    /** An act beside which the engine is seen to: the same bill, and what the condition was is mended too. */
    private Stakes.Act andEngine(Remedy r, Together.AndEngine e, List<Stakes.Act> acts, Question q) {
        int first = number(e.first());
        Stakes.Act a = acts.get(first);
        Optional<PlaceId> engine = cause(e).place();
        double mends = q.figures().get("fix.monitor.none");
        double[] cures = a.cures().clone();
        for (int h = 0; h < cures.length; h++)
            if (causes.get(h).isCondition() && causes.get(h).place().equals(engine))
                cures[h] = Stakes.either(cures[h], mends);
        return new Stakes.Act(
                r.id(), a.size(), a.now(), a.again(), cures, a.shows(), a.fails(), a.hidden(), new int[0], new int[] {
                    first
                });
    }

    /** Two acts in one visit: access and closing up once, the work and parts of both, and one run that checks both. */
    private Stakes.Act joint(Remedy r, List<Stakes.Act> acts, Question q) {
        int[] halves = r.halves().stream().mapToInt(x -> number(x.id())).toArray();
        Stakes.Act a = acts.get(halves[0]);
        Stakes.Act b = acts.get(halves[1]);
        double work = a.now().workMinutes()
                + b.now().workMinutes()
                - (1 - q.figures().get("share.second-check")) * q.figures().get("minutes.check");
        double parts = a.now().parts() + b.now().parts();
        double[] cures = new double[causes.size()];
        double[] hidden = new double[causes.size()];
        for (int h = 0; h < cures.length; h++) {
            cures[h] = Stakes.either(a.cures()[h], b.cures()[h]);
            hidden[h] = Stakes.either(a.hidden()[h], b.hidden()[h]);
        }
        return new Stakes.Act(
                r.id(),
                r.size(),
                new Stakes.Bill(nowMinutes(r, q), work, parts),
                new Stakes.Bill(loom.minutes(r.access()), work, parts),
                cures,
                a.shows(),
                Stakes.either(a.fails(), b.fails()),
                hidden,
                new int[0],
                halves);
    }

    /** Steps still closed, and closing up all that is open, which every remedy has to pay. */
    private double nowMinutes(Remedy r, Question q) {
        if (r.replaces()) return 0;
        return loom.closedMinutes(r.access(), q.open())
                + q.figures().get("share.closing") * loom.minutes(List.copyOf(q.open()));
    }

    private static double minutes(Remedy.Task t, Figures f) {
        return t.key().equals(Remedy.Task.STATED) ? t.count() * f.get("factor.fitting") : t.count() * f.get(t.key());
    }

    /** Circuits that a remedy mends one by one; only work that is done once for each circuit follows the question. */
    private static int circuits(Remedy r, OptionalInt asked) {
        boolean counts = r.tasks().stream().anyMatch(Remedy.Task::eachCircuit);
        return counts && asked.isPresent() ? asked.getAsInt() : Math.max(1, r.circuits());
    }

    /** Wires that the open loom shows to be hurt beside those that the codes name. */
    private static double unnamed(Remedy r, Figures f) {
        boolean common = r.option().equals("splice-repair") && r.place().kind() == PlaceId.Kind.BRANCH;
        return common ? f.get("circuits.unnamed") : 0;
    }

    private static double fix(Remedy r, Cause c, Figures f) {
        String key = "fix." + r.option() + ".";
        if (r.option().equals("monitor")) return f.get(key + (c.group().equals("none") ? "none" : "passing"));
        double there = f.find(key + c.group()).orElse(0.0);
        return r.option().equals("overlay-wire") && c.isCommon() ? f.get("share.all-named") * there : there;
    }

    /** Probability of each cause that it shows a code at the check run where it is left; none is made after nothing was done. */
    private double[] shows(Figures f) {
        double passing = f.get("shows.passing");
        double lasting = loom.situation().ranking().codesActive() ? f.get("shows.lasting") : passing;
        return causes.stream()
                .mapToDouble(c -> c.comesAndGoes() ? passing : lasting)
                .toArray();
    }

    private double fails(Remedy r, int circuits, Figures f) {
        if (r.option().equals("monitor")) return 0;
        double one = f.get("fails." + r.option());
        if (!r.isHarness() && !r.option().equals("fuse")) one *= zone(loom.zone(r.place()), f);
        one = Math.min(MOST_FAILURE, one);
        boolean counts = r.tasks().stream().anyMatch(Remedy.Task::eachCircuit)
                || r.option().equals("overlay-wire");
        return counts ? 1 - Math.pow(1 - one, circuits) : one;
    }

    private static double zone(Zone z, Figures f) {
        String heat = z.celsius() <= 85 ? "upto-85" : z.celsius() <= 125 ? "upto-125" : "over-125";
        return f.get("factor.fails.vibration-" + z.vibration().name().toLowerCase(Locale.ROOT))
                * f.get("factor.fails.fluid-" + z.fluid().name().toLowerCase(Locale.ROOT))
                * f.get("factor.fails.heat-" + heat);
    }

    /** Whether a remedy mends one place of the harness and leaves the stretch beside it as it is. */
    static boolean leavesTheRest(Remedy r) {
        return switch (r.option()) {
            case "reseat", "terminal", "pigtail", "splice-repair", "overlay-wire" -> true;
            case Remedy.TWO -> r.halves().stream().anyMatch(Weighing::leavesTheRest);
            default -> false;
        };
    }

    /** What a repair of one place may leave behind; a new stretch or a part at the end of the harness leaves nothing. */
    private static double hidden(Remedy r, Cause c, String trace, Question q) {
        if (!leavesTheRest(r)) return 0;
        String own = c.trace();
        String worst = Remedies.TRACES.indexOf(own) < Remedies.TRACES.indexOf(trace) ? own : trace;
        double said = q.figures().get("hidden." + worst);
        double shift = q.hiddenShift();
        return shift < 0 ? said * (1 + shift) : said + (1 - said) * shift;
    }

    /** Where a rule requires a remedy, smaller ones do not cure what it covers. */
    private void require(List<Stakes.Act> acts, Rulings rulings) {
        for (int r = 0; r < singles.size(); r++) {
            if (!rulings.says(singles.get(r).id(), RemedyRuling.Effect.REQUIRE)) continue;
            for (int a = 0; a < acts.size(); a++) {
                if (singles.get(a).size() >= singles.get(r).size()
                        || singles.get(a).option().equals("monitor")) continue;
                for (int h = 0; h < causes.size(); h++)
                    if (covered[r][h] >= 0.5) acts.get(a).cures()[h] = 0;
            }
        }
    }
}
