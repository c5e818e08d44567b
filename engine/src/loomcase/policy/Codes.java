package loomcase.policy;

/** Limits of a trouble code's two numbers: 19 bits for the SPN and 5 for the FMI (SAE J1939-73). */
final class Codes {
    static final int LARGEST_SPN = 524_287;
    static final int LARGEST_FMI = 31;

    private Codes() {}

    static void require(String field, int value, int largest) {
        if (value < 0 || value > largest) {
            throw new IllegalArgumentException(field + " is " + value + "; allowed is 0 to " + largest);
        }
    }
}
