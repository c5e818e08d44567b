package loomcase.model;

/**
 * Surroundings shared by branches: they scale how often things fail there.
 *
 * @param id the id in the circuit file
 * @param celsius hottest usual temperature, degrees Celsius
 * @param vibration vibration class
 * @param fluid fluid class
 */
public record Zone(String id, double celsius, Vibration vibration, Fluid fluid) {

    /** How hard the zone shakes. */
    public enum Vibration {
        LOW,
        MEDIUM,
        HIGH
    }

    /** How wet the zone is (water, oil, fuel, coolant). */
    public enum Fluid {
        DRY,
        SPLASH,
        IMMERSED
    }
}
