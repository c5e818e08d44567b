package loomcase.faults;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import loomcase.faults.FaultGenerator.Context;
import loomcase.model.ControlUnit;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.PlaceId;

/**
 * A failed pin or supply of the control unit.
 *
 * <p>A pin that has come loose from the board looks to the harness and to the unit's own measurement like an open contact
 * at that cavity. A unit that is wholly dead sends no codes and so is not a hypothesis about codes.
 */
final class ControlUnitFaults {
    private final Context c;

    ControlUnitFaults(Context context) {
        this.c = context;
    }

    List<Hypothesis> generate() {
        List<Hypothesis> out = new ArrayList<>();
        ControlUnit unit = c.circuit().controlUnit();
        unit.pins().values().stream()
                .sorted(Comparator.comparing(ControlUnit.Pin::cavity))
                .filter(p -> c.used().contains(p.cavity()))
                .forEach(p -> out.add(c.fixed(
                        "control-unit.pin",
                        List.of(unit.place(), FaultGenerator.place(PlaceId.Kind.CAVITY, p.cavity())),
                        p.cavity(),
                        "pin " + p.cavity() + " (" + p.label() + ") open inside the " + unit.label(),
                        1,
                        false,
                        List.of(new Edit.Series(Names.contact(p.cavity()), Edit.OPEN_OHMS)))));
        unit.rails().values().stream()
                .sorted(Comparator.comparing(ControlUnit.Rail::id))
                .forEach(r -> out.add(c.fixed(
                        "control-unit.supply",
                        unit.place(),
                        r.id(),
                        "sensor supply " + r.id() + " dead inside the " + unit.label(),
                        1,
                        new Edit.Dead(r.id()))));
        return out;
    }
}
