package loomcase.policy;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * The words a claim rule may say after {@code then}: {@code blocks}, {@code questioned} and {@code nice}. The first word
 * in brackets names the part of the claim, one of {@link ClaimGap#FIELDS}.
 */
public final class ClaimConclusions extends Speech {
    private final Set<ClaimGap> gaps = new LinkedHashSet<>();

    public ClaimConclusions() {}

    /** The claim is not to be sent like this. */
    public void blocks(String field, String text) {
        say(ClaimGap.Severity.BLOCKS, field, text);
    }

    /** It may be sent, and somebody will ask. */
    public void questioned(String field, String text) {
        say(ClaimGap.Severity.QUESTIONED, field, text);
    }

    /** It would be stronger with this. */
    public void nice(String field, String text) {
        say(ClaimGap.Severity.NICE, field, text);
    }

    private void say(ClaimGap.Severity severity, String field, String text) {
        gaps.add(new ClaimGap(severity, field, text, speaker(), source()));
    }

    List<ClaimGap> gaps() {
        return List.copyOf(gaps);
    }
}
