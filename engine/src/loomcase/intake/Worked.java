package loomcase.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import loomcase.faults.WorkDone;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;

/** Which places and plugs work has touched, as a case tells it. */
final class Worked {
    private Worked() {}

    /**
     * Work done before these codes were read.
     *
     * <p>Without work nothing counts: plugs taken apart for a test alone are not evidence of a slip. A branch replaced after the
     * whole harness was chosen stands for all branches; of a section each branch counts that was recorded.
     */
    static WorkDone before(Circuit circuit, List<Fact> facts, Fact.Codes codes) {
        WorkDone out = WorkDone.NONE;
        List<WorkDone> steps = steps(circuit, facts);
        for (int i = 0; i < facts.size() && facts.get(i) != codes; i++) out = out.and(steps.get(i));
        return out;
    }

    /** What each line says of work: of one that says none, the plugs that were apart for a test once work had begun. */
    static List<WorkDone> steps(Circuit circuit, List<Fact> facts) {
        List<WorkDone> out = new ArrayList<>();
        Optional<ClaimFact.Chose> chosen = Optional.empty();
        boolean began = false;
        for (Fact f : facts) {
            if (f instanceof ClaimFact.Chose c) chosen = Optional.of(c);
            if (f instanceof Fact.Work w && w.spot().isPresent()) {
                began = true;
                out.add(of(circuit, w.deed(), w.spot().get(), chosen));
            } else out.add(began ? apart(f) : WorkDone.NONE);
        }
        return out;
    }

    private static WorkDone apart(Fact f) {
        List<String> plugs = List.of();
        if (f instanceof Fact.Reading r) plugs = r.setup().unplugged();
        if (f instanceof Fact.Watched x) plugs = x.setup().unplugged();
        Map<String, Boolean> out = new TreeMap<>();
        plugs.forEach(p -> out.put(p, false));
        return WorkDone.apart(out);
    }

    private static WorkDone of(Circuit circuit, Fact.Deed done, Spot spot, Optional<ClaimFact.Chose> chosen) {
        WorkDone.Deed deed = WorkDone.Deed.valueOf(done.name());
        boolean section = deed == WorkDone.Deed.REPLACED && spot.place().kind() == PlaceId.Kind.BRANCH;
        if (section && spot.rubPoint().isEmpty())
            return WorkDone.section(
                    circuit, new Layout(circuit), branches(circuit, spot.place().id(), chosen));
        return WorkDone.of(circuit, new WorkDone.Job(deed, spot.place(), spot.rubPoint()));
    }

    private static List<String> branches(Circuit circuit, String branch, Optional<ClaimFact.Chose> chosen) {
        boolean all =
                chosen.filter(c -> c.option() == ClaimFact.Option.FULL_HARNESS).isPresent();
        return all ? List.copyOf(circuit.branches().keySet()) : List.of(branch);
    }
}
