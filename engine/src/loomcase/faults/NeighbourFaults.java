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
 * placed in the branch where most of its exposure lies and named by the two wires that have most of it there. The base
 * rates are totals over all battery, all 5 V or all other neighbours of one wire, so its exposure in a branch is shared out
 * evenly over its neighbours of that sort there.
 */
final class NeighbourFaults {
    private final Context c;

    NeighbourFaults(Context context) {
        this.c = context;
    }

    /** What two wires that touch are, by the kinds of their nets; the feeding kind, where there is one, comes first. */
    private enum Family {
        BATTERY("wire.short-battery", Nets.Kind.BATTERY),
        FIVE_VOLT("wire.short-five-volt", Nets.Kind.RAIL),
        NEIGHBOUR("wire.short-neighbour", null);

        private final String id;
        private final Nets.Kind feeding;

        Family(String id, Nets.Kind feeding) {
            this.id = id;
            this.feeding = feeding;
        }

        static Family of(Nets.Kind a, Nets.Kind b) {
            if (a == BATTERY.feeding || b == BATTERY.feeding) return BATTERY;
            return a == FIVE_VOLT.feeding || b == FIVE_VOLT.feeding ? FIVE_VOLT : NEIGHBOUR;
        }
    }

    /** Two nets in one branch: their exposure there, and the two wires that have most of it. */
    private static final class Beside {
        private final String branch;
        private double exposure;
        private double most;
        private Wire a;
        private Wire b;

        Beside(String branch) {
            this.branch = branch;
        }

        void add(Wire x, Wire y, double more) {
            exposure += more;
            if (more <= most) return;
            most = more;
            a = x;
            b = y;
        }
    }

    List<Hypothesis> generate() {
        Map<Long, List<Beside>> meetings = new LinkedHashMap<>();
        Map<String, Integer> numbers = new HashMap<>();
        for (Branch branch : c.circuit().branches().values()) meet(branch, numbers, meetings);
        List<Hypothesis> out = new ArrayList<>();
        for (List<Beside> each : meetings.values()) out.add(hypothesis(each));
        return out;
    }

    /** Wires of one branch, ground wires left out, with what is asked of each many times. */
    private final class Bundle {
        private final List<Wire> wires = new ArrayList<>();
        private final String[] net;
        private final int[] number;
        private final Nets.Kind[] kind;
        private final double[] metres;

        /** By wire and family: how many wires of other nets here make such a short with it. */
        private final int[][] alike;

        /** @param numbers of the nets met so far; new ones are added */
        Bundle(Branch branch, Map<String, Integer> numbers) {
            for (Wire w : c.layout().in(branch.id())) if (kind(w) != Nets.Kind.GROUND) wires.add(w);
            int n = wires.size();
            this.net = new String[n];
            this.number = new int[n];
            this.kind = new Nets.Kind[n];
            this.metres = new double[n];
            this.alike = new int[n][Family.values().length];
            int[] ofKind = new int[Nets.Kind.values().length];
            Map<String, Integer> ofNet = new HashMap<>();
            for (int w = 0; w < n; w++) {
                net[w] = c.nets().of(wires.get(w));
                number[w] = numbers.computeIfAbsent(net[w], k -> numbers.size());
                kind[w] = c.nets().kind(net[w]);
                metres[w] = metres(wires.get(w), branch);
                ofKind[kind[w].ordinal()]++;
                ofNet.merge(net[w], 1, Integer::sum);
            }
            // A net has one kind.
            for (int w = 0; w < n; w++)
                for (Nets.Kind k : Nets.Kind.values())
                    alike[w][Family.of(kind[w], k).ordinal()] +=
                            ofKind[k.ordinal()] - (k == kind[w] ? ofNet.get(net[w]) : 0);
        }

        /**
         * One over the number of such neighbours: of the wire that is shorted, or of both in the mean where neither feeds.
         */
        double share(int a, int b) {
            Family family = Family.of(kind[a], kind[b]);
            int ofA = alike[a][family.ordinal()];
            int ofB = alike[b][family.ordinal()];
            boolean aFeeds = kind[a] == family.feeding;
            boolean bFeeds = kind[b] == family.feeding;
            if (aFeeds == bFeeds) return (1.0 / ofA + 1.0 / ofB) / 2;
            return 1.0 / (aFeeds ? ofB : ofA);
        }
    }

    /** @param meetings of two nets, one for each branch that they share */
    private void meet(Branch branch, Map<String, Integer> numbers, Map<Long, List<Beside>> meetings) {
        Bundle here = new Bundle(branch, numbers);
        double factor = c.exposure().factor(branch.zone());
        for (int i = 0; i < here.net.length; i++)
            for (int j = i + 1; j < here.net.length; j++) {
                int x = here.number[i];
                int y = here.number[j];
                if (x == y) continue;
                double exposure = factor * Math.min(here.metres[i], here.metres[j]) * here.share(i, j);
                if (exposure <= 0) continue;
                Long both = (long) Math.min(x, y) * Integer.MAX_VALUE + Math.max(x, y);
                boolean inOrder = here.net[i].compareTo(here.net[j]) < 0;
                in(branch, meetings.computeIfAbsent(both, k -> new ArrayList<>(2)))
                        .add(here.wires.get(inOrder ? i : j), here.wires.get(inOrder ? j : i), exposure);
            }
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

    /** The meeting in a branch; branches come one after another. */
    private static Beside in(Branch branch, List<Beside> meetings) {
        if (meetings.isEmpty() || !meetings.get(meetings.size() - 1).branch.equals(branch.id()))
            meetings.add(new Beside(branch.id()));
        return meetings.get(meetings.size() - 1);
    }

    /** In the branch with the most exposure; of equals the last by name. */
    private Hypothesis hypothesis(List<Beside> meetings) {
        Beside most = meetings.stream()
                .max(Comparator.comparingDouble((Beside m) -> m.exposure).thenComparing(m -> m.branch))
                .orElseThrow();
        Wire a = most.a;
        Wire b = most.b;
        return c.fixed(
                Family.of(kind(a), kind(b)).id,
                List.of(
                        FaultGenerator.place(PlaceId.Kind.BRANCH, most.branch),
                        FaultGenerator.place(PlaceId.Kind.WIRE, a.id()),
                        FaultGenerator.place(PlaceId.Kind.WIRE, b.id())),
                a.id() + "–" + b.id(),
                WireFaults.name(a) + " rubbed through to " + WireFaults.name(b)
                        + (meetings.size() == 1 ? " in branch " : ", likeliest in branch ") + most.branch,
                meetings.stream().mapToDouble(m -> m.exposure).sum(),
                false,
                List.of(new Edit.Bridge(WireFaults.point(a), WireFaults.point(b), Edit.SHORT_OHMS)));
    }
}
