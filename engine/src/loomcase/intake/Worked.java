package loomcase.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.IntPredicate;
import java.util.stream.Collectors;
import loomcase.faults.WorkDone;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;

/**
 * Which places and plugs work has touched, as a case tells it.
 *
 * <p>Work changed nothing when the codes read after it have active codes of the same SPNs, at least one, as those read last
 * before it: the FMI that a unit shows for one circuit, or for one wire that is open, is not always the same. A slip is looked
 * for only where a code of an SPN is active that was not before, or none is. Without work nothing counts: plugs taken apart for a test alone are not evidence of a slip. A branch replaced after the
 * whole harness was chosen stands for all branches; of a section each branch counts that was recorded.
 */
final class Worked {
    private final List<Fact> facts;

    /** What each line says of work: of one that says none, the plugs that were apart for a test once work had begun. */
    private final List<WorkDone> steps = new ArrayList<>();

    Worked(Circuit circuit, List<Fact> facts) {
        this.facts = facts;
        Optional<ClaimFact.Chose> chosen = Optional.empty();
        boolean began = false;
        for (Fact f : facts) {
            if (f instanceof ClaimFact.Chose c) chosen = Optional.of(c);
            if (f instanceof Fact.Work w && w.spot().isPresent()) {
                began = true;
                steps.add(of(circuit, w.deed(), w.spot().get(), chosen));
            } else steps.add(began ? apart(f) : WorkDone.NONE);
        }
    }

    /** Work done before these codes were read; of what was done since the last that may have slipped only the places. */
    WorkDone before(Fact.Codes codes) {
        WorkDone out = WorkDone.NONE;
        int slipped = last(work -> !nothingNew(work));
        boolean inVain = false;
        for (int i = 0; i < facts.size() && facts.get(i) != codes; i++) {
            inVain |= i > slipped && isWork(i);
            out = out.and(inVain ? WorkDone.inVain(steps.get(i).jobs()) : steps.get(i));
        }
        return out;
    }

    /** Work from this line on, whether codes were read after it or not. */
    WorkDone from(int line) {
        return steps.stream().skip(line).reduce(WorkDone.NONE, WorkDone::and);
    }

    /** Line of the last work that changed something, or after which codes were not read; −1 where there is none. */
    int lastChange() {
        return last(work -> !before(work).equals(after(work)) || before(work).isEmpty());
    }

    private int last(IntPredicate which) {
        int out = -1;
        for (int i = 0; i < facts.size(); i++) if (isWork(i) && which.test(i)) out = i;
        return out;
    }

    private boolean nothingNew(int work) {
        return !after(work).isEmpty() && before(work).containsAll(after(work));
    }

    private boolean isWork(int line) {
        return facts.get(line) instanceof Fact.Work w && w.spot().isPresent();
    }

    private Set<Integer> before(int work) {
        Set<Integer> out = Set.of();
        for (int i = 0; i < work; i++) if (facts.get(i) instanceof Fact.Codes c) out = active(c);
        return out;
    }

    private Set<Integer> after(int work) {
        Set<Integer> out = Set.of();
        boolean read = false;
        for (int i = work + 1; i < facts.size(); i++) {
            if (read && isWork(i)) break;
            if (!(facts.get(i) instanceof Fact.Codes c)) continue;
            out = active(c);
            read = true;
        }
        return out;
    }

    /** SPNs of the active codes. */
    private static Set<Integer> active(Fact.Codes codes) {
        return codes.codes().stream()
                .filter(c -> c.state() == Fact.State.ACTIVE)
                .map(c -> c.code().spn())
                .collect(Collectors.toSet());
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
