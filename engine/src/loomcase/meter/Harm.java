package loomcase.meter;

/** Ways in which a test can hurt the harness, a part or a person; facts for the policy, which decides what follows. */
public enum Harm {
    PROBES_FEMALE_CAVITY("a probe pushed into a female terminal spreads it; use a breakout lead or the right test pin"),
    OHMS_ON_LIVE_CIRCUIT("an ohmmeter on a circuit that may carry voltage reads nonsense and can be damaged"),
    JUMPER_ON_DRIVER("a jumper on a driver output can destroy the control unit"),
    JUMPER_ON_SUPPLY("a jumper without a resistor on a supply or feed is a short circuit"),
    JUMPER_ON_INJECTOR("a jumper on an injector circuit can destroy injector and control unit"),
    BOOSTED_VOLTAGE("injector circuits carry boosted voltage while the engine runs"),
    MOVING_PARTS("the engine runs: moving and hot parts");

    private final String words;

    Harm(String words) {
        this.words = words;
    }

    /** Why it is a harm, in plain words. */
    public String words() {
        return words;
    }

    /** The name that rules know it by, such as {@code ohms-on-live-circuit}. */
    public String key() {
        return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
    }
}
