package loomcase.faults;

import java.util.ArrayList;
import java.util.Arrays;
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
 * placed in the branch where most of its exposure lies. The base rates are totals over all battery, all 5 V or all other
 * neighbours of one wire, so its exposure in a branch is shared out evenly over its neighbours of that sort there.
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

    /** Two nets that share branches, with the first wires of both that do. */
    private static final class Meeting {
        private final Wire a;
        private final Wire b;
        private final List<String> branches = new ArrayList<>(2);
        private double[] exposure = new double[2];

        Meeting(Wire a, Wire b) {
            this.a = a;
            this.b = b;
        }

        /** Branches come one after another. */
        void add(String branch, double more) {
            int n = branches.size();
            if (n > 0 && branches.get(n - 1).equals(branch)) {
                exposure[n - 1] += more;
                return;
            }
            branches.add(branch);
            if (n == exposure.length) exposure = Arrays.copyOf(exposure, 2 * n);
            exposure[n] = more;
        }

        /** The branch with the most exposure; of equals the last by name. */
        String branch() {
            int best = 0;
            for (int k = 1; k < branches.size(); k++) {
                int order = Double.compare(exposure[k], exposure[best]);
                if (order > 0 || order == 0 && branches.get(k).compareTo(branches.get(best)) > 0) best = k;
            }
            return branches.get(best);
        }

        double exposure() {
            return Arrays.stream(exposure, 0, branches.size()).sum();
        }
    }

    List<Hypothesis> generate() {
        Map<Long, Meeting> meetings = new LinkedHashMap<>();
        Map<String, Integer> numbers = new HashMap<>();
        for (Branch branch : c.circuit().branches().values()) meet(branch, numbers, meetings);
        List<Hypothesis> out = new ArrayList<>();
        for (Meeting m : meetings.values()) out.add(hypothesis(m));
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

    private void meet(Branch branch, Map<String, Integer> numbers, Map<Long, Meeting> meetings) {
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
                Meeting known = meetings.get(both);
                if (known == null) {
                    boolean inOrder = here.net[i].compareTo(here.net[j]) < 0;
                    known = new Meeting(here.wires.get(inOrder ? i : j), here.wires.get(inOrder ? j : i));
                    meetings.put(both, known);
                }
                known.add(branch.id(), exposure);
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

    private Hypothesis hypothesis(Meeting m) {
        String branch = m.branch();
        return c.fixed(
                Family.of(kind(m.a), kind(m.b)).id,
                List.of(
                        FaultGenerator.place(PlaceId.Kind.BRANCH, branch),
                        FaultGenerator.place(PlaceId.Kind.WIRE, m.a.id()),
                        FaultGenerator.place(PlaceId.Kind.WIRE, m.b.id())),
                m.a.id() + "–" + m.b.id(),
                WireFaults.name(m.a) + " rubbed through to " + WireFaults.name(m.b) + " in branch " + branch,
                m.exposure(),
                false,
                List.of(new Edit.Bridge(WireFaults.point(m.a), WireFaults.point(m.b), Edit.SHORT_OHMS)));
    }
}
