package loomcase.policy;

/**
 * One way in which some test may do harm, as the rules about tests see it.
 *
 * @param harm the way, such as {@code ohms-on-live-circuit} or {@code moving-parts}
 */
public record HarmFact(String harm) {
    public HarmFact {
        if (!harm.matches("[a-z]+(-[a-z]+)*"))
            throw new IllegalArgumentException("harm '" + harm + "' must be words in small letters joined by '-'");
    }
}
