package loomcase.faults;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.Wire;
import loomcase.model.Zone;

/** How much a place is exposed: its length or count, times the factors of the zones it lies in. */
final class Exposure {
    private final Circuit circuit;
    private final Layout layout;
    private final Priors priors;
    private final Map<Zone, Double> factors = new HashMap<>();

    Exposure(Circuit circuit, Layout layout, Priors priors) {
        this.circuit = circuit;
        this.layout = layout;
        this.priors = priors;
    }

    /** Product of the vibration, temperature and fluid factors of a zone. */
    double factor(Zone zone) {
        return factors.computeIfAbsent(zone, this::product);
    }

    private double product(Zone zone) {
        String heat = zone.celsius() <= 85 ? "upto-85" : zone.celsius() <= 125 ? "upto-125" : "over-125";
        return priors.get("factor.zone.vibration." + word(zone.vibration()))
                * priors.get("factor.zone.temperature." + heat)
                * priors.get("factor.zone.fluid." + word(zone.fluid()));
    }

    private static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT);
    }

    /** Metres of a wire, each weighed by its zone. */
    double weighedMetres(Wire wire) {
        double inBranches = 0;
        double weighed = 0;
        for (Layout.Run run : layout.runs(wire.id())) {
            inBranches += run.metres();
            weighed +=
                    run.metres() * factor(circuit.branches().get(run.branch()).zone());
        }
        return weighed + Math.max(0, layout.metres(wire) - inBranches);
    }
}
