package loomcase.faults;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.faults.FaultGenerator.Context;
import loomcase.model.Branch;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/**
 * Two wires of unlike nets rubbed through to each other where they share a branch.
 *
 * <p>Any two wires of the same two nets give the same electrical fault, so there is one hypothesis for each pair of nets,
 * placed in the branch where most of its exposure lies. A wire's exposure is shared out evenly over the other nets of
 * the branch.
 */
final class NeighbourFaults {
    private final Context c;

    NeighbourFaults(Context context) {
        this.c = context;
    }

    private record Meeting(Wire a, Wire b, Map<String, Double> exposureByBranch) {}

    List<Hypothesis> generate() {
        Map<String, Meeting> meetings = new LinkedHashMap<>();
        for (Branch branch : c.circuit().branches().values()) meet(branch, meetings);
        List<Hypothesis> out = new ArrayList<>();
        for (Meeting m : meetings.values()) out.add(hypothesis(m));
        return out;
    }

    private void meet(Branch branch, Map<String, Meeting> meetings) {
        List<Wire> here = c.layout().in(branch.id()).stream()
                .filter(w -> c.nets().kind(c.nets().of(w)) != Nets.Kind.GROUND)
                .toList();
        long nets = here.stream().map(c.nets()::of).distinct().count();
        if (nets < 2) return;
        double factor = c.exposure().factor(branch.zone()) / (nets - 1);
        for (int i = 0; i < here.size(); i++)
            for (int j = i + 1; j < here.size(); j++) {
                Wire a = here.get(i);
                Wire b = here.get(j);
                if (c.nets().of(a).equals(c.nets().of(b))) continue;
                double exposure = factor * Math.min(metres(a, branch), metres(b, branch));
                if (exposure <= 0) continue;
                Wire first = c.nets().of(a).compareTo(c.nets().of(b)) < 0 ? a : b;
                Wire second = first == a ? b : a;
                meetings.computeIfAbsent(
                                c.nets().of(first) + "|" + c.nets().of(second),
                                k -> new Meeting(first, second, new LinkedHashMap<>()))
                        .exposureByBranch()
                        .merge(branch.id(), exposure, Double::sum);
            }
    }

    private double metres(Wire w, Branch branch) {
        return c.layout().runs(w.id()).stream()
                .filter(r -> r.branch().equals(branch.id()))
                .mapToDouble(Layout.Run::metres)
                .sum();
    }

    private Hypothesis hypothesis(Meeting m) {
        String branch = m.exposureByBranch().entrySet().stream()
                .max(Map.Entry.<String, Double>comparingByValue().thenComparing(Map.Entry.comparingByKey()))
                .orElseThrow()
                .getKey();
        double exposure = m.exposureByBranch().values().stream()
                .mapToDouble(Double::doubleValue)
                .sum();
        return c.fixed(
                family(m),
                List.of(
                        FaultGenerator.place(PlaceId.Kind.BRANCH, branch),
                        FaultGenerator.place(PlaceId.Kind.WIRE, m.a().id()),
                        FaultGenerator.place(PlaceId.Kind.WIRE, m.b().id())),
                m.a().id() + "–" + m.b().id(),
                WireFaults.name(m.a()) + " rubbed through to " + WireFaults.name(m.b()) + " in branch " + branch,
                exposure,
                false,
                List.of(new Edit.Bridge(WireFaults.point(m.a()), WireFaults.point(m.b()), Edit.SHORT_OHMS)));
    }

    private String family(Meeting m) {
        Nets.Kind a = c.nets().kind(c.nets().of(m.a()));
        Nets.Kind b = c.nets().kind(c.nets().of(m.b()));
        if (a == Nets.Kind.BATTERY || b == Nets.Kind.BATTERY) return "wire.short-battery";
        if (a == Nets.Kind.RAIL || b == Nets.Kind.RAIL) return "wire.short-five-volt";
        return "wire.short-neighbour";
    }
}
