package loomcase.drill;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.j1939.Code;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.journal.Fact;
import loomcase.rank.Evidence;

/**
 * Plants faults: those an instructor names, or drawn ones of a wanted difficulty.
 *
 * <p>Drawing: a kind of fault, each as likely, then one of that kind, each as likely; then, by stated shares, when it shows,
 * whether a second fault is there (hard drills only) and whether an old code is stored. A draw that shows no code, or whose
 * {@link Rating} lies outside what is wanted, is thrown away and the next is drawn. Everything hangs on the seed.
 */
public final class Planter {
    /** Largest difference of scores within a class set. */
    public static final double EQUAL = 0.75;

    /** Seeds go up to here. */
    public static final int MOST_SEED = 999_999_999;

    private static final int MOST_DRAWS = 400;
    private static final double HOT_SHARE = 0.15;
    private static final double MOVED_SHARE = 0.15;
    private static final double STRAY_SHARE = 0.2;
    private static final double PAIR_SHARE = 0.15;
    private static final int MOST_STRAY_COUNT = 3;

    private final Bench bench;
    private final List<Hypothesis> all;
    private final Map<String, List<Hypothesis>> families = new LinkedHashMap<>();

    public Planter(Bench bench) {
        this.bench = bench;
        this.all = new FaultGenerator(bench.circuit(), bench.layout(), bench.priors())
                .generate().stream()
                        .filter(h -> !h.id().equals(FaultGenerator.NOTHING))
                        .toList();
        for (Hypothesis h : all)
            families.computeIfAbsent(h.family(), k -> new ArrayList<>()).add(h);
    }

    /** A seed that nobody can guess; a small one is soon tried out by drawing the same drill. */
    public static long anySeed() {
        return new java.security.SecureRandom().nextInt(MOST_SEED) + 1L;
    }

    /** Every fault that may be planted: id to words, in a stable order. */
    public Map<String, String> faults() {
        Map<String, String> out = new LinkedHashMap<>();
        all.forEach(h -> out.put(h.id(), h.words()));
        return out;
    }

    /**
     * A drill made.
     *
     * @param truth what is wrong
     * @param first codes read when the engine came in
     * @param complaint what the driver says
     * @param rating how hard it is
     */
    public record Made(Truth truth, Fact.Codes first, String complaint, Rating rating) {
        /** The public part, without naming the difficulty. */
        public Drill drill(Fact.CircuitFile circuit, String difficulty, Limits limits) {
            return new Drill(circuit, complaint, first, difficulty, limits);
        }
    }

    /**
     * Plants named faults.
     *
     * @param ids ids of hypotheses, one or two
     * @param showing when they are there; empty for what fits each
     * @param stray whether an old code is stored too
     * @throws InputProblem when one is not known or they show no code
     */
    public Made plant(List<String> ids, Optional<Showing> showing, boolean stray, long seed) {
        if (ids.stream().distinct().count() < ids.size())
            throw new InputProblem("the fault " + ids.get(0) + " is named twice; two at once are two different ones");
        Dice dice = new Dice(seed);
        List<Truth.Fault> faults =
                ids.stream().map(id -> fault(dice, "named", named(id), showing)).toList();
        if (faults.isEmpty() || faults.size() > Truth.MOST_FAULTS)
            throw new InputProblem("plant one fault or two, not " + faults.size());
        return made(new Truth(seed, faults, strays(dice, "named", stray)))
                .orElseThrow(() -> new InputProblem("the fault " + String.join(" with ", ids)
                        + " shows no code on this engine (seed " + seed
                        + "), so there is no complaint; plant another or try another seed"));
    }

    private Hypothesis named(String id) {
        return all.stream().filter(h -> h.id().equals(id)).findFirst().orElseThrow(() -> {
            List<String> near = all.stream()
                    .map(Hypothesis::id)
                    .filter(x -> x.contains(id) || id.contains(x.substring(x.indexOf(' ') + 1)))
                    .limit(4)
                    .toList();
            return new InputProblem("circuit " + bench.circuit().id() + " has no fault '" + id + "'"
                    + (near.isEmpty() ? "" : "; near it are " + String.join(", ", near))
                    + "; drill faults lists them");
        });
    }

    /**
     * Draws a fault of a wanted difficulty.
     *
     * @throws InputProblem when none was found, which a small circuit may be too easy or too hard for
     */
    public Made draw(Difficulty difficulty, long seed) {
        return draw(difficulty, seed, OptionalDouble.empty());
    }

    /**
     * Draws a set of different drills of equal difficulty: their scores differ by at most {@value #EQUAL} from the first's.
     */
    public List<Made> set(Difficulty difficulty, int count, long seed) {
        List<Made> out = new ArrayList<>();
        for (long k = 0; out.size() < count && k < 50L * count; k++) {
            OptionalDouble near = out.isEmpty()
                    ? OptionalDouble.empty()
                    : OptionalDouble.of(out.get(0).rating().score());
            Made next = draw(difficulty, seed + k, near);
            boolean other = out.stream()
                    .noneMatch(m -> m.truth().faults().equals(next.truth().faults()));
            if (other) out.add(next);
        }
        if (out.size() < count)
            throw new InputProblem("only " + out.size() + " different " + difficulty.word()
                    + " drills of equal difficulty were found; ask for fewer or use another seed");
        return out;
    }

    private Made draw(Difficulty difficulty, long seed, OptionalDouble near) {
        Dice dice = new Dice(seed);
        for (int k = 0; k < MOST_DRAWS; k++) {
            String label = "draw " + k;
            List<Truth.Fault> faults = new ArrayList<>();
            faults.add(fault(dice, label, one(dice, label), Optional.empty()));
            if (difficulty == Difficulty.HARD && dice.uniform(label + " pair") < PAIR_SHARE)
                faults.add(fault(dice, label + " second", one(dice, label + " second"), Optional.empty()));
            boolean stray = dice.uniform(label + " stray") < STRAY_SHARE;
            Optional<Made> made = made(new Truth(seed, faults, strays(dice, label, stray)));
            if (made.isEmpty()) continue;
            double score = made.get().rating().score();
            if (difficulty.holds(score) && (near.isEmpty() || Math.abs(score - near.getAsDouble()) <= EQUAL))
                return made.get();
        }
        throw new InputProblem("no " + difficulty.word() + " fault was found on circuit "
                + bench.circuit().id() + " with seed " + seed + "; use another seed or difficulty");
    }

    private Hypothesis one(Dice dice, String label) {
        String family = dice.pick(label + " family", List.copyOf(families.keySet()));
        return dice.pick(label + " fault", families.get(family));
    }

    private Truth.Fault fault(Dice dice, String label, Hypothesis h, Optional<Showing> wanted) {
        Showing showing = wanted.orElseGet(() -> showing(dice, label, h));
        if (!(h.cause() instanceof Hypothesis.AnyOf a)) return new Truth.Fault(h.id(), List.of(), showing);
        for (int round = 0; ; round++) {
            String each = label + " hit " + round + " ";
            List<Integer> hits = IntStream.range(0, a.hits().size())
                    .filter(i -> dice.uniform(each + i) < a.hitShare())
                    .boxed()
                    .toList();
            if (hits.size() >= a.least()) return new Truth.Fault(h.id(), hits, showing);
        }
    }

    private static Showing showing(Dice dice, String label, Hypothesis h) {
        if (h.comesAndGoes()) return Showing.AT_RANDOM;
        boolean joint = h.family().startsWith("contact")
                || h.family().startsWith("crimp")
                || h.family().startsWith("splice")
                || h.family().startsWith("wire");
        double x = dice.uniform(label + " showing");
        if (joint && x < HOT_SHARE) return Showing.HOT;
        return joint && x < HOT_SHARE + MOVED_SHARE ? Showing.MOVED : Showing.ALWAYS;
    }

    private List<Truth.Stray> strays(Dice dice, String label, boolean wanted) {
        if (!wanted) return List.of();
        List<Code> codes = bench.circuit().watches().stream()
                .map(w -> new Code(w.spn(), w.fmi()))
                .distinct()
                .sorted()
                .toList();
        int count = 1 + (int) (dice.uniform(label + " stray count") * MOST_STRAY_COUNT);
        return List.of(new Truth.Stray(dice.pick(label + " stray code", codes), count));
    }

    private Optional<Made> made(Truth truth) {
        Engine engine = new Engine(bench, truth);
        List<String> points = points();
        List<Fact.ReadCode> codes = engine.first(points, truth.strays());
        if (codes.size() <= truth.strays().size() && codes.stream().allMatch(c -> isStray(truth, c.code())))
            return Optional.empty();
        boolean active = codes.stream().anyMatch(c -> c.state() == Fact.State.ACTIVE);
        Lamps lamps = new Lamps(Lamp.OFF, active ? Lamp.ON : Lamp.OFF, Lamp.OFF, Lamp.OFF);
        Fact.Codes first = new Fact.Codes(codes, points, Optional.empty(), Optional.of(lamps));
        Evidence evidence = new Evidence(
                codes.stream()
                        .map(c -> new Evidence.Seen(
                                c.code(), Evidence.State.valueOf(c.state().name()), c.count()))
                        .toList(),
                points);
        return Optional.of(
                new Made(truth, first, complaint(engine.planted()), Rating.of(bench, engine.planted(), evidence)));
    }

    private static boolean isStray(Truth truth, Code code) {
        return truth.strays().stream().anyMatch(s -> s.code().equals(code));
    }

    /** Where the unit had looked: the first point at rest and the first with the engine running. */
    private List<String> points() {
        List<String> out = new ArrayList<>();
        bench.circuit().firstPoint(false).ifPresent(o -> out.add(o.id()));
        bench.circuit().firstPoint(true).ifPresent(o -> out.add(o.id()));
        return out;
    }

    private static String complaint(List<Planted> faults) {
        if (faults.stream().anyMatch(p -> p.showing() == Showing.ALWAYS)) return "warning lamp on, stays on";
        if (faults.stream().anyMatch(p -> p.showing() == Showing.HOT))
            return "warning lamp comes on once the engine is warm, off again after a night";
        if (faults.stream().anyMatch(p -> p.showing() == Showing.MOVED))
            return "warning lamp comes and goes on rough ground";
        return "warning lamp comes and goes, nobody knows when";
    }
}
