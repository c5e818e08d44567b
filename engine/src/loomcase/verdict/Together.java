package loomcase.verdict;

/** What is done in one visit: a single remedy, and something beside it. */
sealed interface Together {
    /** Id of the single remedy. */
    String first();

    /**
     * Two repairs.
     *
     * @param first id of a single remedy
     * @param second id of another
     */
    record Two(String first, String second) implements Together {}

    /**
     * A repair of the harness, and the engine seen to.
     *
     * @param first id of a single remedy
     * @param condition id of the cause that is the condition of the engine
     */
    record AndEngine(String first, String condition) implements Together {}
}
