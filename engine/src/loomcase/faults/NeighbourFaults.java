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
 * placed in the branch where most of its exposure lies. The base rates are totals over all battery, all 5 V or all other
 * neighbours of one wire, so its exposure in a branch is shared out evenly over its neighbours of that sort there.
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
                .filter(w -> kind(w) != Nets.Kind.GROUND)
                .toList();
        double factor = c.exposure().factor(branch.zone());
        for (int i = 0; i < here.size(); i++)
            for (int j = i + 1; j < here.size(); j++) {
                Wire a = here.get(i);
                Wire b = here.get(j);
                if (c.nets().of(a).equals(c.nets().of(b))) continue;
                double exposure = factor * Math.min(metres(a, branch), metres(b, branch)) * share(a, b, here);
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

    /** One over the number of such neighbours: of the wire that is shorted, or of both in the mean where neither feeds. */
    private double share(Wire a, Wire b, List<Wire> here) {
        String family = family(a, b);
        boolean aFeeds = feeds(kind(a), family);
        boolean bFeeds = feeds(kind(b), family);
        if (aFeeds == bFeeds) return (1.0 / alike(a, family, here) + 1.0 / alike(b, family, here)) / 2;
        return 1.0 / alike(aFeeds ? b : a, family, here);
    }

    private static boolean feeds(Nets.Kind kind, String family) {
        return family.equals("wire.short-battery") && kind == Nets.Kind.BATTERY
                || family.equals("wire.short-five-volt") && kind == Nets.Kind.RAIL;
    }

    /** How many wires of other nets in the branch make a short of this family with this wire. */
    private long alike(Wire w, String family, List<Wire> here) {
        return here.stream()
                .filter(x ->
                        !c.nets().of(x).equals(c.nets().of(w)) && family(w, x).equals(family))
                .count();
    }

    private Nets.Kind kind(Wire w) {
        return c.nets().kind(c.nets().of(w));
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
                family(m.a(), m.b()),
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

    private String family(Wire a, Wire b) {
        if (kind(a) == Nets.Kind.BATTERY || kind(b) == Nets.Kind.BATTERY) return "wire.short-battery";
        if (kind(a) == Nets.Kind.RAIL || kind(b) == Nets.Kind.RAIL) return "wire.short-five-volt";
        return "wire.short-neighbour";
    }
}
