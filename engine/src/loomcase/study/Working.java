package loomcase.study;

import loomcase.plan.Way;

/** A way of working through a case. All stop testing alike and then do what the verdict finds cheapest. */
public enum Working {
    PLANNER("planner", Way.PLANNER, false),
    INFORMATION_GAIN("information gain, no cost", Way.INFORMATION_GAIN, false),
    HALF_SPLIT("half-split", Way.HALF_SPLIT, false),
    /** New devices first, one for each that a code names, then the most informative test. */
    SENSORS_FIRST("sensors first", Way.INFORMATION_GAIN, true);

    private final String words;
    private final Way tests;
    private final boolean sensorsFirst;

    Working(String words, Way tests, boolean sensorsFirst) {
        this.words = words;
        this.tests = tests;
        this.sensorsFirst = sensorsFirst;
    }

    /** In plain words. */
    public String words() {
        return words;
    }

    Way tests() {
        return tests;
    }

    boolean sensorsFirst() {
        return sensorsFirst;
    }
}
