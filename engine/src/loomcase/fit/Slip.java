package loomcase.fit;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.j1939.Code;

/**
 * One slip in a transfer and what would follow if the engine were started with it.
 *
 * @param kind what went wrong
 * @param cavity the cavity concerned, {@code CONNECTOR/CAVITY} of the old plug
 * @param other the second cavity of a swap
 * @param effect how it shows
 * @param codes codes that would be shown, most probable first
 * @param damage what may be damaged, in words
 * @param settled false where the network finds no steady state, so that codes and damage are not to be relied on
 * @param check the continuity check that catches it before the key is turned
 * @param wrongOhms what that check reads then; infinite for over range
 */
public record Slip(
        Kind kind,
        String cavity,
        Optional<String> other,
        Effect effect,
        List<Shown> codes,
        List<String> damage,
        boolean settled,
        Optional<Check> check,
        OptionalDouble wrongOhms) {

    /** What went wrong. */
    public enum Kind {
        SWAPPED("swapped"),
        LEFT_OUT("left-out"),
        NOT_SEATED("not-seated");

        private final String word;

        Kind(String word) {
            this.word = word;
        }

        /** The word used in JSON. */
        public String word() {
            return word;
        }
    }

    /** How it shows. */
    public enum Effect {
        /** Nothing changes: both cavities are one circuit. */
        NONE("none"),
        /** At least one code is more likely shown than not. */
        CODES("codes"),
        /** No code, but the control unit has no supply: the engine does not start. */
        UNIT_DEAD("control-unit-dead"),
        /** No code; only the check finds it. */
        SILENT("silent");

        private final String word;

        Effect(String word) {
            this.word = word;
        }

        /** The word used in JSON. */
        public String word() {
            return word;
        }
    }

    /**
     * A code with the probability that it is shown.
     *
     * @param probability 0 to 1
     */
    public record Shown(Code code, double probability) {}

    /**
     * Ohms from a cavity of the plug to the other end of its circuit, both plugs apart, battery isolated, leads zeroed.
     *
     * @param cavity where one lead goes, {@code CONNECTOR/CAVITY}
     * @param far where the other goes: a cavity, a fuse terminal or a ground stud
     * @param apart plugs that are apart
     * @param expectedOhms computed from the wire at 20 °C: IEC 60028 copper, ASTM B258 gauges
     * @param limitOhms the most that passes: expected × 1.28 for stranding and lay, and 0.2 ohm for leads and probes
     * @param ofNewWire false where the new wire is not known and the old one stands for it
     */
    public record Check(
            String cavity, String far, List<String> apart, double expectedOhms, double limitOhms, boolean ofNewWire) {
        public Check {
            apart = List.copyOf(apart);
        }
    }

    public Slip {
        codes = List.copyOf(codes);
        damage = List.copyOf(damage);
    }
}
