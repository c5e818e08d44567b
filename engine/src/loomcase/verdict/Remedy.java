package loomcase.verdict;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import loomcase.model.PlaceId;
import loomcase.policy.ClaimCase;
import loomcase.policy.RemedyFact;

/**
 * One way of putting the fault right at one place, concrete enough to be done and to be priced.
 *
 * @param id its id, {@code OPTION PLACE}; of two together both with {@code " + "} between them; where the engine is seen to
 *     as well, {@code " + engine CONDITION"} behind it
 * @param option one of {@link RemedyFact#OPTIONS}, or {@link #TWO}
 * @param place where it is done; of two together the place of the first
 * @param words what is done, in one sentence
 * @param tasks work, each with the key of its minutes
 * @param parts parts and sealing
 * @param access ids of the access steps it needs; none where the minutes stated for it hold them already
 * @param circuits circuits that it repairs one by one; 0 where it replaces a whole part
 * @param covers share of each hypothesis that lies where this works, by id of the cause; absent for none
 * @param replaced branches that it replaces whole
 * @param detail how it is made
 * @param halves the two remedies that are done together in one visit; none for a single remedy
 */
public record Remedy(
        String id,
        String option,
        PlaceId place,
        String words,
        List<Task> tasks,
        List<Part> parts,
        List<String> access,
        int circuits,
        Map<String, Double> covers,
        List<String> replaced,
        Detail detail,
        List<Remedy> halves) {
    /** The option of two remedies that are done together. */
    public static final String TWO = ClaimCase.TWO_REPAIRS;

    private static final String AND = " + ";

    /**
     * A piece of work.
     *
     * @param key where its minutes come from: a key of {@code rules/repair-costs.csv}, or {@link #STATED}
     * @param count how often it is done; for {@link #STATED} the minutes themselves
     * @param eachCircuit done once for each circuit
     * @param words the work
     */
    public record Task(String key, double count, boolean eachCircuit, String words) {
        /** Minutes that the circuit file states. */
        public static final String STATED = "circuit file";
    }

    /**
     * A part or sealing fitted.
     *
     * @param name the part
     * @param count how many
     * @param price of one; zero where the circuit file has none
     * @param eachCircuit fitted once for each circuit
     */
    public record Part(String name, double count, BigDecimal price, boolean eachCircuit) {
        /** Price of all. */
        public BigDecimal sum() {
            return price.multiply(BigDecimal.valueOf(count));
        }
    }

    /**
     * How a remedy is made.
     *
     * @param cut what is cut or taken out, one sentence each
     * @param fit what is fitted, with sealing
     * @param splices where new splices go
     * @param wires sizes, insulation, pairs and shields to keep to, one sentence each
     * @param neighbours circuits that run beside or through the place and are touched by the work
     * @param loads what each new wire or joint carries, drops and may carry
     */
    public record Detail(
            List<String> cut,
            List<String> fit,
            List<SpliceSite> splices,
            List<String> wires,
            List<String> neighbours,
            List<WireLoad> loads) {
        static final Detail NONE = new Detail(List.of(), List.of(), List.of(), List.of(), List.of(), List.of());

        public Detail {
            cut = List.copyOf(cut);
            fit = List.copyOf(fit);
            splices = List.copyOf(splices);
            wires = List.copyOf(wires);
            neighbours = List.copyOf(neighbours);
            loads = List.copyOf(loads);
        }

        private static Detail both(Detail a, Detail b) {
            return new Detail(
                    joined(a.cut, b.cut),
                    joined(a.fit, b.fit),
                    joined(a.splices, b.splices),
                    joined(a.wires, b.wires),
                    joined(a.neighbours, b.neighbours),
                    joined(a.loads, b.loads));
        }
    }

    /**
     * Where a splice goes.
     *
     * @param wire wire that is joined
     * @param branch branch it lies in
     * @param metresAlong distance from the branch's {@code from} junction
     * @param metresToEnd distance to the nearest plug or branching
     * @param metresToClip distance to the nearest clip, clips taken as evenly spread
     * @param flexes the place moves in use
     */
    public record SpliceSite(
            String wire, String branch, double metresAlong, double metresToEnd, double metresToClip, boolean flexes) {}

    public Remedy {
        tasks = List.copyOf(tasks);
        parts = List.copyOf(parts);
        access = List.copyOf(access);
        covers = Map.copyOf(covers);
        replaced = List.copyOf(replaced);
        halves = List.copyOf(halves);
        boolean known = halves.isEmpty() ? RemedyFact.OPTIONS.contains(option) : option.equals(TWO);
        if (!known) throw new IllegalArgumentException("no option " + option + " of " + halves.size() + " halves");
    }

    /** A single remedy. */
    public Remedy(
            String id,
            String option,
            PlaceId place,
            String words,
            List<Task> tasks,
            List<Part> parts,
            List<String> access,
            int circuits,
            Map<String, Double> covers,
            List<String> replaced,
            Detail detail) {
        this(id, option, place, words, tasks, parts, access, circuits, covers, replaced, detail, List.of());
    }

    /** Two single remedies in one visit: every access step once. */
    static Remedy both(Remedy a, Remedy b) {
        return new Remedy(
                a.id + AND + b.id,
                TWO,
                a.place,
                a.words + "; and " + b.words,
                joined(a.tasks, b.tasks),
                joined(a.parts, b.parts),
                joined(a.access, b.access).stream().distinct().toList(),
                Math.max(a.circuits, b.circuits),
                Map.of(),
                List.of(),
                Detail.both(a.detail, b.detail),
                List.of(a, b));
    }

    /**
     * The same repair with the engine seen to in the same visit, which is no work on the harness and not priced.
     *
     * @param condition where the condition of the engine is
     * @param seeTo what is done about it
     */
    Remedy andEngine(PlaceId condition, String seeTo) {
        return new Remedy(
                id + AND + "engine " + condition.id(),
                option,
                place,
                words + "; and " + seeTo,
                tasks,
                parts,
                access,
                circuits,
                covers,
                replaced,
                detail,
                halves);
    }

    private static <T> List<T> joined(List<T> a, List<T> b) {
        return Stream.concat(a.stream(), b.stream()).toList();
    }

    /** The remedy itself, or the two of which it is made. */
    public List<Remedy> singles() {
        return halves.isEmpty() ? List.of(this) : halves;
    }

    /** Where it is done, each place once. */
    public List<PlaceId> places() {
        return singles().stream().map(Remedy::place).distinct().toList();
    }

    /** Place in the order from the smallest work to the largest; of two together that of the larger. */
    public int size() {
        return singles().stream()
                .mapToInt(r -> RemedyFact.OPTIONS.indexOf(r.option))
                .max()
                .orElseThrow();
    }

    /** True when it replaces a stretch of the harness or all of it. */
    public boolean replaces() {
        return option.equals("branch-section") || isHarness();
    }

    /** True when it replaces all of the harness. */
    public boolean isHarness() {
        return option.equals("full-harness");
    }

    /** How often a task is done or a part fitted when so many circuits are damaged. */
    static double times(double count, boolean eachCircuit, double circuits) {
        return eachCircuit ? count * circuits : count;
    }
}
