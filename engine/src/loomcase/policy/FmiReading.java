package loomcase.policy;

import java.util.Comparator;

/**
 * One way in which a crossed threshold is shown: the control unit sees {@code conditionFmi} on this kind of circuit and
 * sends {@code shownFmi} with this weight. The weights of one kind and condition sum to one.
 *
 * @param circuitKind kind of circuit, from {@link CircuitKinds#ALL}
 * @param conditionFmi FMI of the threshold that was crossed
 * @param shownFmi FMI of the code that is sent
 * @param weight probability of that, over 0 and up to 1
 * @param rule name of the rule that says so
 * @param basis where the weights come from, in the rule's words
 */
public record FmiReading(String circuitKind, int conditionFmi, int shownFmi, double weight, String rule, String basis) {
    static final Comparator<FmiReading> ORDER = Comparator.comparingInt(
                    (FmiReading reading) -> CircuitKinds.ALL.indexOf(reading.circuitKind()))
            .thenComparingInt(FmiReading::conditionFmi)
            .thenComparing(Comparator.comparingDouble(FmiReading::weight).reversed())
            .thenComparingInt(FmiReading::shownFmi);

    public FmiReading {
        CircuitKinds.require(circuitKind);
        Codes.require("condition fmi", conditionFmi, Codes.LARGEST_FMI);
        Codes.require("shown fmi", shownFmi, Codes.LARGEST_FMI);
        if (!(weight > 0 && weight <= 1)) {
            throw new IllegalArgumentException("weight is " + weight + "; allowed is over 0 and up to 1");
        }
    }

    /** Kind of circuit and condition: what the shares of one whole have in common. */
    String condition() {
        return circuitKind + " condition " + conditionFmi;
    }
}
