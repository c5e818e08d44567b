package loomcase.verdict;

import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import loomcase.faults.WorkDone;
import loomcase.faults.WorkDone.Deed;
import loomcase.faults.WorkDone.Job;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;

/** What doing a remedy is as work done, as a technician would write it down. */
public final class Handiwork {
    private final Circuit circuit;
    private final Layout layout;

    public Handiwork(Circuit circuit, Layout layout) {
        this.circuit = circuit;
        this.layout = layout;
    }

    /** Work of a remedy, of both halves where it is made of two. */
    public WorkDone of(Remedy remedy) {
        return remedy.singles().stream().map(this::single).reduce(WorkDone.NONE, WorkDone::and);
    }

    private WorkDone single(Remedy r) {
        if (r.replaces()) return WorkDone.section(circuit, layout, r.replaced());
        return jobs(r).map(j -> WorkDone.of(circuit, j)).reduce(WorkDone.NONE, WorkDone::and);
    }

    /** How often a remedy was done: some of its work at its place, of a section all that it replaces. */
    int timesDone(Remedy remedy, List<Job> done) {
        Stream<Job> needed = remedy.replaces() ? of(remedy).jobs().stream() : jobs(remedy);
        IntStream each = needed.mapToInt(job -> Collections.frequency(done, job));
        return (remedy.replaces() ? each.min() : each.max()).orElse(0);
    }

    private static Stream<Job> jobs(Remedy r) {
        PlaceId place = r.place();
        return switch (r.option()) {
            case "monitor" -> Stream.of();
            case "reseat" -> Stream.of(new Job(Deed.RESEATED, place), new Job(Deed.CLEANED, place));
            case "terminal", "splice-repair" -> Stream.of(new Job(Deed.REPAIRED, place));
            default -> Stream.of(new Job(Deed.REPLACED, place));
        };
    }

    /** A part fitted new. */
    public WorkDone renewed(PlaceId part) {
        return WorkDone.of(circuit, new Job(Deed.REPLACED, part));
    }
}
