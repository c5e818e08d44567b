package loomcase.faults;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
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
 * placed in the branch where most of its exposure lies and named by the two wires that have most of it there. The base rates are totals over all battery, all 5 V or all other
 * neighbours of one wire, so its exposure in a branch is shared out evenly over its neighbours of that sort there.
 */
final class NeighbourFaults {
    private final Context c;

    NeighbourFaults(Context context) {
        this.c = context;
    }

    /** Two nets in one branch: their exposure there, and the two wires that have most of it. */
    private static final class Beside {
        private double exposure;
        private double most;
        private Wire a;
        private Wire b;

        void add(Wire x, Wire y, double more) {
            exposure += more;
            if (more <= most) return;
            most = more;
            a = x;
            b = y;
        }
    }

    List<Hypothesis> generate() {
        Map<String, Map<String, Beside>> byNets = new LinkedHashMap<>();
        for (Branch branch : c.circuit().branches().values()) meet(branch, byNets);
        List<Hypothesis> out = new ArrayList<>();
        for (Map<String, Beside> byBranch : byNets.values()) out.add(hypothesis(byBranch));
        return out;
    }

    /** Wires of one branch, ground wires left out, with what is asked of each many times. */
    private final class Bundle {
        private final List<Wire> wires;
        private final String[] net;
        private final Nets.Kind[] kind;
        private final double[] metres;
        private final int[] ofKind = new int[Nets.Kind.values().length];
        private final Map<String, Integer> ofNet = new HashMap<>();

        Bundle(Branch branch) {
            this.wires = c.layout().in(branch.id()).stream()
                    .filter(w -> kind(w) != Nets.Kind.GROUND)
                    .toList();
            this.net = wires.stream().map(w -> c.nets().of(w)).toArray(String[]::new);
            this.kind = wires.stream().map(NeighbourFaults.this::kind).toArray(Nets.Kind[]::new);
            this.metres = wires.stream().mapToDouble(w -> metres(w, branch)).toArray();
            for (Nets.Kind k : kind) ofKind[k.ordinal()]++;
            for (String n : net) ofNet.merge(n, 1, Integer::sum);
        }

        /**
         * One over the number of such neighbours: of the wire that is shorted, or of both in the mean where neither feeds.
         */
        double share(int a, int b) {
            String family = family(kind[a], kind[b]);
            boolean aFeeds = feeds(kind[a], family);
            boolean bFeeds = feeds(kind[b], family);
            if (aFeeds == bFeeds) return (1.0 / alike(a, family) + 1.0 / alike(b, family)) / 2;
            return 1.0 / alike(aFeeds ? b : a, family);
        }

        /** How many wires of other nets in the branch make a short of this family with a wire; a net has one kind. */
        private int alike(int w, String family) {
            int count = 0;
            for (Nets.Kind k : Nets.Kind.values())
                if (family(kind[w], k).equals(family))
                    count += ofKind[k.ordinal()] - (k == kind[w] ? ofNet.get(net[w]) : 0);
            return count;
        }
    }

    private void meet(Branch branch, Map<String, Map<String, Beside>> byNets) {
        Bundle here = new Bundle(branch);
        double factor = c.exposure().factor(branch.zone());
        for (int i = 0; i < here.wires.size(); i++)
            for (int j = i + 1; j < here.wires.size(); j++) {
                if (here.net[i].equals(here.net[j])) continue;
                double exposure = factor * Math.min(here.metres[i], here.metres[j]) * here.share(i, j);
                if (exposure <= 0) continue;
                int first = here.net[i].compareTo(here.net[j]) < 0 ? i : j;
                int second = first == i ? j : i;
                byNets.computeIfAbsent(here.net[first] + "|" + here.net[second], k -> new LinkedHashMap<>())
                        .computeIfAbsent(branch.id(), k -> new Beside())
                        .add(here.wires.get(first), here.wires.get(second), exposure);
            }
    }

    private static boolean feeds(Nets.Kind kind, String family) {
        return family.equals("wire.short-battery") && kind == Nets.Kind.BATTERY
                || family.equals("wire.short-five-volt") && kind == Nets.Kind.RAIL;
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

    private Hypothesis hypothesis(Map<String, Beside> byBranch) {
        String branch = byBranch.keySet().stream()
                .max(Comparator.comparingDouble((String id) -> byBranch.get(id).exposure)
                        .thenComparing(Comparator.naturalOrder()))
                .orElseThrow();
        double exposure =
                byBranch.values().stream().mapToDouble(m -> m.exposure).sum();
        Wire a = byBranch.get(branch).a;
        Wire b = byBranch.get(branch).b;
        return c.fixed(
                family(kind(a), kind(b)),
                List.of(
                        FaultGenerator.place(PlaceId.Kind.BRANCH, branch),
                        FaultGenerator.place(PlaceId.Kind.WIRE, a.id()),
                        FaultGenerator.place(PlaceId.Kind.WIRE, b.id())),
                a.id() + "–" + b.id(),
                WireFaults.name(a) + " rubbed through to " + WireFaults.name(b)
                        + (byBranch.size() == 1 ? " in branch " : ", likeliest in branch ") + branch,
                exposure,
                false,
                List.of(new Edit.Bridge(WireFaults.point(a), WireFaults.point(b), Edit.SHORT_OHMS)));
    }

    private static String family(Nets.Kind a, Nets.Kind b) {
        if (a == Nets.Kind.BATTERY || b == Nets.Kind.BATTERY) return "wire.short-battery";
        if (a == Nets.Kind.RAIL || b == Nets.Kind.RAIL) return "wire.short-five-volt";
        return "wire.short-neighbour";
    }
}
