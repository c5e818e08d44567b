package loomcase.solve;

import java.util.*;
import loomcase.model.*;
import org.junit.jupiter.api.Test;

class Probe1Test {
    @Test
    void probe() {
        RandomEdits draw = new RandomEdits(RandomEdits.circuit("teaching"), 1);
        NetworkSolver solver = new NetworkSolver(draw.circuit, draw.layout);
        var in = solver.at("key-on", "rest");
        Solution s = in.solveAfresh(List.of(new Edit.Bridge("J1/8~", "CB/1~", 0.5)));
        System.out.println(s.settled());
        Netlist net = s.net();
        for (int p = 0; p < net.parts().size(); p++) {
            Part q = net.parts().get(p);
            System.out.println(q.name() + " region " + s.regions()[p] + " wants " + q.regionAt(s.nodeVolts())
                    + " violation " + q.violation(s.regions()[p], s.nodeVolts()) + " x="
                    + q.probe().at(s.nodeVolts()) + Arrays.toString(q.breaks()));
        }
        for (String f : net.nodeNames()) System.out.print(f + "=" + s.volts(f).getAsDouble() + " ");
    }
}
