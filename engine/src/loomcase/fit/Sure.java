package loomcase.fit;

/** How sure it is that two things of two harnesses are the same one. */
public enum Sure {
    /** What they serve says so, and nothing else comes near. */
    CERTAIN("certain"),
    /** The best of several, or told by little. */
    LIKELY("likely"),
    /** Another one is as good. */
    AMBIGUOUS("ambiguous");

    private final String word;

    Sure(String word) {
        this.word = word;
    }

    /** The word shown. */
    public String word() {
        return word;
    }
}
