package loomcase.model;

import java.util.Locale;

/** What a look at a place may find; its word in files is the name in small letters with hyphens. */
public enum Finding {
    /** Looked at and nothing wrong. */
    CLEAN,
    /** Insulation rubbed through or nearly so. */
    CHAFE,
    CUT,
    MELTED,
    /** Crushed under a clip or between parts. */
    PINCHED,
    BROKEN_STRANDS,
    GREEN_COPPER,
    OIL_IN_PLUG,
    WATER_IN_PLUG,
    COOLANT_IN_PLUG,
    PUSHED_OUT_TERMINAL,
    SPREAD_TERMINAL,
    BENT_PIN,
    BURNT_TERMINAL,
    MISSING_SEAL,
    LOOSE_LATCH,
    NOT_PLUGGED_IN,
    BLOWN_FUSE,
    LOOSE_STUD,
    MISSING_CLIP,
    EARLIER_REPAIR;

    /** The word used in files and on screens. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
