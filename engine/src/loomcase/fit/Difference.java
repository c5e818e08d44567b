package loomcase.fit;

/**
 * One way in which the new harness is not as the old, with what follows.
 *
 * @param subject what is compared
 * @param severity how bad it is
 * @param where place in the old harness, or in the new one where the old has none
 * @param what the difference in plain words
 * @param consequence what follows if nothing is done
 * @param action what to do
 * @param source where the rule comes from; {@link #PRACTICE} for a rule of thumb
 */
public record Difference(
        Subject subject,
        Severity severity,
        String where,
        String what,
        String consequence,
        String action,
        String source) {
    /** A rule of thumb of the trade. */
    public static final String PRACTICE = "common practice, no source";

    /** Our own reasoning or figure. */
    public static final String JUDGEMENT = "judgement";

    /** Follows from the two files alone. */
    public static final String COMPARED = "the two files";

    /** What may differ. */
    public enum Subject {
        PLUG("plug"),
        MATING_FACE("mating face"),
        KEYING("keying"),
        HOUSING("housing"),
        SEAL("seal"),
        TERMINAL("terminal"),
        CAVITY_MAP("cavity map"),
        CIRCUIT("circuit"),
        WIRE("wire"),
        TWIST("twist and shield"),
        TERMINATION("terminating resistors"),
        REACH("reach"),
        HOLD("clips and brackets"),
        COVER("cover"),
        FUSE("fuse"),
        GROUND("ground");

        private final String word;

        Subject(String word) {
            this.word = word;
        }

        /** The word shown. */
        public String word() {
            return word;
        }
    }

    /** How bad a difference is, worst first. */
    public enum Severity {
        /** It cannot be fitted as it is. */
        BLOCKS("blocks"),
        /** Terminals have to be moved. */
        TRANSFER("transfer"),
        /** It can be fitted; something has to be done or watched. */
        CARE("care"),
        /** Good to know. */
        NOTE("note");

        private final String word;

        Severity(String word) {
            this.word = word;
        }

        /** The word shown. */
        public String word() {
            return word;
        }
    }

    /** A fact that could not be compared. */
    public record NotKnown(String what, String where, boolean matters) {}
}
