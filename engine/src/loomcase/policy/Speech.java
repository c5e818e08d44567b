package loomcase.policy;

import java.util.Map;

/**
 * What every family's words share: who is speaking, and why. Name, reason and source are taken from the head of the rule
 * that is speaking, so that the consequence stays one line.
 *
 * <p>Rules hold it as the global {@code conclude}. It belongs to one run and is not safe for several threads.
 */
abstract class Speech {
    private String rule = "";
    private String reason = "";
    private String source = "";

    /** From here on this rule is the speaker. */
    final void speaks(String ruleName, Map<String, Object> head) {
        rule = ruleName;
        reason = String.valueOf(head.getOrDefault("Reason", ""));
        source = String.valueOf(head.getOrDefault("Source", "shop rule"));
    }

    final void nobodySpeaks() {
        rule = "";
    }

    /** Name of the rule that is speaking, empty between rules. */
    final String speaker() {
        return rule;
    }

    final String reason() {
        return reason;
    }

    final String source() {
        return source;
    }

    /**
     * Called after a shop's rules have run: whether what single rules said can stand side by side.
     *
     * @throws Contradiction if it cannot
     */
    void checkTogether() {}

    /** Two rules of one shop that cannot both be right. */
    static final class Contradiction extends RuntimeException {
        private static final long serialVersionUID = 1L;

        private final String rule;

        /** @param rule name of one of them, where the message points to */
        Contradiction(String rule, String message) {
            super(message);
            this.rule = rule;
        }

        String rule() {
            return rule;
        }
    }
}
