package loomcase.drill;

/** How a run ended. */
public enum Ending {
    SOLVED("solved: the right place, and everything works"),
    FOUND("the right place was named, but not everything works again"),
    WRONG("the place claimed is not the right one"),
    GAVE_UP("given up"),
    OUT_OF_TIME("out of time"),
    OUT_OF_MONEY("out of money");

    private final String words;

    Ending(String words) {
        this.words = words;
    }

    /** In plain words. */
    public String words() {
        return words;
    }

    /** The word used in files. */
    public String word() {
        return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
    }
}
