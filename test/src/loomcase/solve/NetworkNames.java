package loomcase.solve;

import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.OperatingPoint;

/** Tells tests of other packages whether the network has what an edit names; edits of unknown things do nothing. */
public final class NetworkNames {
    private final Circuit circuit;
    private final Netlist net;

    public NetworkNames(Circuit circuit) {
        OperatingPoint op = circuit.operatingPoints().values().iterator().next();
        this.circuit = circuit;
        this.net = NetlistBuilder.build(
                circuit, new Layout(circuit), op, op.phases().get(0));
    }

    /** True when the edit changes something in the network. */
    public boolean has(Edit edit) {
        if (edit instanceof Edit.Series s) return net.findElement(s.element()).isPresent();
        if (edit instanceof Edit.Bridge b)
            return net.find(b.pointA()).isPresent() && net.find(b.pointB()).isPresent();
        Changes changes = Changes.of(net, circuit.devices(), java.util.List.of(edit));
        return !changes.elements().isEmpty() || !changes.parts().isEmpty();
    }

    /** True when the network has this point. */
    public boolean hasPoint(String point) {
        return net.find(point).isPresent();
    }
}
