package loomcase.journal;

/** Whether a fact may be recorded. */
public sealed interface Admission {
    /** It fits the circuit and is ordinary. */
    record Accepted() implements Admission {}

    /**
     * It is possible but odd; a person should look again and confirm.
     *
     * @param reason what is odd, a sentence without full stop
     */
    record NeedsConfirmation(String reason) implements Admission {}

    /**
     * It cannot be.
     *
     * @param reason what is wrong and what is allowed
     */
    record Refused(String reason) implements Admission {}
}
