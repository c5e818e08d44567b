package loomcase.solve;

import java.util.*;
import loomcase.model.*;
import org.junit.jupiter.api.Test;

class Probe0Test {
    @Test
    void probe() {
        for (String name : List.of("teaching", "larch-13")) {
            RandomEdits draw = new RandomEdits(RandomEdits.circuit(name), 1);
            NetworkSolver solver = new NetworkSolver(draw.circuit, draw.layout);
            int n = 4000, bad = 0, unsettled = 0, unsettledBoth = 0, regionDiff = 0, fuseDiff = 0;
            double worst = 0;
            long tp = 0, td = 0;
            TreeMap<Integer, Integer> hist = new TreeMap<>();
            for (var op : draw.circuit.operatingPoints().values())
                for (var ph : op.phases()) {
                    var in = solver.at(op.id(), ph.id());
                    if (!in.healthy().settled()) System.out.println("healthy unsettled " + op.id() + ph.id());
                    System.out.println(name + " " + op.id() + " " + ph.id() + " nodes "
                            + in.healthy().net().size() + " el "
                            + in.healthy().net().elements().size() + " parts "
                            + in.healthy().net().parts().size());
                }
            for (int i = 0; i < n; i++) {
                var when = draw.when();
                var edits = draw.edits();
                var in = solver.at(when.operatingPoint(), when.phase());
                Solution a, b;
                try {
                    long t0 = System.nanoTime();
                    a = in.solve(edits);
                    long t1 = System.nanoTime();
                    b = in.solveAfresh(edits);
                    long t2 = System.nanoTime();
                    tp += t1 - t0;
                    td += t2 - t1;
                } catch (RuntimeException e) {
                    System.out.println("THROW " + e + " " + RandomEdits.words(when, edits));
                    e.printStackTrace(System.out);
                    continue;
                }
                if (!a.settled() || !b.settled()) {
                    unsettled++;
                    if (!a.settled() && !b.settled()) unsettledBoth++;
                    if (unsettled < 8)
                        System.out.println("UNSETTLED " + a.settled() + b.settled() + RandomEdits.words(when, edits));
                    continue;
                }
                if (!a.openedFuses().equals(b.openedFuses())) {
                    fuseDiff++;
                    System.out.println("FUSE " + a.openedFuses() + b.openedFuses() + RandomEdits.words(when, edits));
                    continue;
                }
                boolean rd = !Arrays.equals(a.regions(), b.regions());
                double w = 0;
                int at = 0;
                for (int k = 0; k < a.nodeVolts().length; k++) {
                    double d = Math.abs(a.nodeVolts()[k] - b.nodeVolts()[k]) / Math.max(1, Math.abs(b.nodeVolts()[k]));
                    if (!(d <= w)) {
                        w = d;
                        at = k;
                    }
                }
                hist.merge((int) Math.floor(Math.log10(w + 1e-17)), 1, Integer::sum);
                if (rd) {
                    regionDiff++;
                    if (regionDiff < 12) {
                        System.out.println("REGION w=" + w + RandomEdits.words(when, edits));
                        for (int p = 0; p < a.regions().length; p++)
                            if (a.regions()[p] != b.regions()[p])
                                System.out.println("   "
                                        + a.net().parts().get(p).name() + " " + a.regions()[p] + " " + b.regions()[p]);
                    }
                } else if (!(w < 1e-6)) {
                    bad++;
                    if (bad < 12)
                        System.out.println(
                                "VOLTS " + w + " at " + a.net().nodeNames().get(at) + " " + a.nodeVolts()[at] + " "
                                        + b.nodeVolts()[at] + RandomEdits.words(when, edits));
                }
                worst = Math.max(worst, w);
            }
            int ref = 0;
            for (var op : draw.circuit.operatingPoints().values())
                for (var ph : op.phases()) ref += solver.at(op.id(), ph.id()).refactored();
            System.out.println(name + " unsettled " + unsettled + "/" + unsettledBoth + " fuse " + fuseDiff + " region "
                    + regionDiff + " bad " + bad + " worst " + worst + " refact " + ref + " us/solve " + tp / 1e3 / n
                    + " direct " + td / 1e3 / n + hist);
        }
    }
}
