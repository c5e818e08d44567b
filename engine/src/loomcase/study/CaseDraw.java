package loomcase.study;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import loomcase.drill.Showing;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.model.Circuit;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.OperatingPoint;
import loomcase.model.PlaceId;

/**
 * Draws what is truly wrong in a case, and by how much every other part is off.
 *
 * <p>Tolerances: a device's healthy value differs by a normal factor whose standard deviation is half of the tolerance in
 * the circuit file (which states about two). Wires, contacts and pull-ups stay exact; the spread of the limits stands for
 * them.
 */
final class CaseDraw {
    private static final double LEAST_SHARE = 0.1;
    private static final double MOST_SHARE = 0.6;

    /** Share of time in which a fault that comes and goes is there (judgement). */
    static final double PRESENT = 0.5;

    private final Circuit circuit;
    private final World world;
    private final Sizes sizes;
    private final Predicate<List<Edit>> shows;
    private final List<Hypothesis> lasting = new ArrayList<>();
    private final List<Hypothesis> passing = new ArrayList<>();
    private final List<Hypothesis> engine = new ArrayList<>();
    private final List<Hypothesis> common = new ArrayList<>();
    private final List<Hypothesis> all = new ArrayList<>();

    /** All but those that come and go. */
    private final List<Hypothesis> there = new ArrayList<>();

    private final Map<String, Double> skew = new TreeMap<>();

    /**
     * @param shows whether a fault by itself shows a code on an exact engine; only such faults, and such sizes of them, are
     *     drawn for pairs, for of two faults one of which shows nothing only one can be asked for
     */
    CaseDraw(Circuit circuit, List<Hypothesis> hypotheses, World world, Predicate<List<Edit>> shows, long seed) {
        this.circuit = circuit;
        this.world = world;
        this.sizes = new Sizes(circuit, world.sizes());
        this.shows = shows;
        for (Hypothesis h : hypotheses) {
            if (h.id().equals(FaultGenerator.NOTHING)) continue;
            all.add(h);
            if (!h.comesAndGoes()) there.add(h);
            if (h.cause() instanceof Hypothesis.AnyOf) common.add(h);
            else if (h.place().kind() == PlaceId.Kind.ENGINE) engine.add(h);
            else (h.comesAndGoes() ? passing : lasting).add(h);
            skew.put(h.family(), 1.0);
        }
        SplittableRandom random = new SplittableRandom(seed);
        skew.replaceAll((family, one) -> Math.pow(10, world.priorSkew() * Numbers.normal(random)));
    }

    /** How large faults are. */
    Sizes sizes() {
        return sizes;
    }

    /**
     * Draws one case; the same numbers give the same case.
     *
     * @param ofSizes for the sizes of faults, so that the rest of a case is the same in a world of other sizes
     */
    Planted draw(Planted.Kind kind, SplittableRandom random, SplittableRandom ofSizes) {
        List<Hypothesis> truth = new ArrayList<>();
        boolean present = true;
        switch (kind) {
            case SINGLE -> truth.add(pick(lasting, this::weight, random));
            case UNIFORM -> truth.add(anyPlace(random));
            case DOUBLE -> {
                truth.add(showing(random));
                Hypothesis second = showing(random);
                while (second.place().equals(truth.get(0).place())) second = showing(random);
                truth.add(second);
            }
            case COMMON -> truth.add(pick(common, this::weight, random));
            case ENGINE -> truth.add(pick(engine, this::weight, random));
            case INTERMITTENT -> {
                truth.add(pick(passing, this::weight, random));
                present = random.nextDouble() < PRESENT;
            }
            case MIXED -> {
                truth.add(pick(all, this::weight, random));
                if (truth.get(0).comesAndGoes()) present = random.nextDouble() < PRESENT;
                else if (random.nextDouble() < another()) truth.add(pick(there, this::weight, random));
            }
        }
        List<loomcase.drill.Planted> faults = new ArrayList<>();
        for (Hypothesis h : truth) {
            loomcase.drill.Planted p = loomcase.drill.Planted.of(
                    h, hits(h, random), h.comesAndGoes() ? Showing.AT_RANDOM : Showing.ALWAYS);
            loomcase.drill.Planted own;
            do own = sized(p, ofSizes);
            while (kind == Planted.Kind.DOUBLE && !shows.test(own.edits()));
            faults.add(own);
        }
        if (kind == Planted.Kind.MIXED && truth.size() > 1 && !bothShow(faults)) {
            truth.remove(1);
            faults.remove(1);
        }
        return new Planted(kind, truth, faults, off(random), present);
    }

    private loomcase.drill.Planted sized(loomcase.drill.Planted p, SplittableRandom random) {
        return new loomcase.drill.Planted(
                p.id(), p.family(), p.words(), p.places(), sizes.of(p.place(), p.edits(), random), p.showing());
    }

    private Hypothesis showing(SplittableRandom random) {
        Hypothesis h = pick(lasting, this::weight, random);
        while (!shows.test(((Hypothesis.Fixed) h.cause()).edits())) h = pick(lasting, this::weight, random);
        return h;
    }

    /**
     * Probability that a second fault happens to be there beside one that was drawn: half of how many are to be expected,
     * for two that are there by chance are drawn in either order.
     */
    private double another() {
        return there.stream().mapToDouble(this::weight).sum() / 2;
    }

    private boolean bothShow(List<loomcase.drill.Planted> two) {
        return !two.get(0).place().equals(two.get(1).place()) && two.stream().allMatch(p -> shows.test(p.edits()));
    }

    private double weight(Hypothesis h) {
        return h.probability() * skew.get(h.family());
    }

    private Hypothesis anyPlace(SplittableRandom random) {
        Map<PlaceId, List<Hypothesis>> byPlace = new LinkedHashMap<>();
        for (Hypothesis h : lasting)
            byPlace.computeIfAbsent(h.place(), k -> new ArrayList<>()).add(h);
        List<PlaceId> places = new ArrayList<>(byPlace.keySet());
        places.sort(Comparator.naturalOrder());
        List<Hypothesis> here = byPlace.get(places.get(random.nextInt(places.size())));
        return here.get(random.nextInt(here.size()));
    }

    private static Hypothesis pick(
            List<Hypothesis> from, ToDoubleFunction<Hypothesis> weight, SplittableRandom random) {
        double x = random.nextDouble() * from.stream().mapToDouble(weight).sum();
        for (Hypothesis h : from) {
            x -= weight.applyAsDouble(h);
            if (x <= 0) return h;
        }
        return from.get(from.size() - 1);
    }

    /** Which neighbours a common cause hits, by number. */
    private static List<Integer> hits(Hypothesis h, SplittableRandom random) {
        List<Integer> hit = new ArrayList<>();
        if (!(h.cause() instanceof Hypothesis.AnyOf any)) return hit;
        double share = LEAST_SHARE + (MOST_SHARE - LEAST_SHARE) * random.nextDouble();
        while (hit.size() < any.least()) {
            hit.clear();
            for (int i = 0; i < any.hits().size(); i++) if (random.nextDouble() < share) hit.add(i);
        }
        return hit;
    }

    /** By which factor every device is off, in file order. */
    private Map<String, Double> off(SplittableRandom random) {
        Map<String, Double> out = new LinkedHashMap<>();
        for (Device d : circuit.devices().values()) {
            double factor = 1 + world.tolerance() * d.tolerancePercent() / 200 * Numbers.normal(random);
            if (world.tolerance() > 0) out.put(d.id(), Math.max(0.05, factor));
        }
        return out;
    }

    /**
     * What differs from the healthy circuit at an operating point: the faults, and each device that they leave alone by its
     * factor.
     *
     * @param faults those of the case that are there now
     */
    List<Edit> edits(Planted planted, List<loomcase.drill.Planted> faults, OperatingPoint at) {
        List<Edit> out = new ArrayList<>();
        Set<String> set = new HashSet<>();
        for (loomcase.drill.Planted f : faults)
            for (Edit e : f.edits()) {
                if (e instanceof Edit.Value v) set.add(v.device());
                if (e instanceof Edit.Dead d) set.add(d.what());
            }
        planted.off().forEach((id, factor) -> {
            Device.Nature nature = circuit.devices().get(id).nature();
            if (set.contains(id)) return;
            if (nature instanceof Device.Ntc || nature instanceof Device.Load)
                out.add(new Edit.Value(id, Edit.Quantity.OHMS_FACTOR, factor));
            if (nature instanceof Device.Ratiometric r)
                out.add(new Edit.Value(
                        id,
                        Edit.Quantity.FRACTION,
                        Math.min(1, factor * r.fraction().at(at.id()))));
        });
        // Last, for of two edits of one element the later one holds.
        faults.forEach(f -> out.addAll(f.edits()));
        return out;
    }
}
