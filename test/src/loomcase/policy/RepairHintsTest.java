package loomcase.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.Arrays;
import java.util.stream.Collectors;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** The rules against the trade's rules of thumb (see {@code test/data/policy/SOURCES.md}). */
class RepairHintsTest {
    private static final Policy BUILT_IN = Policy.builtIn();

    @ParameterizedTest
    @CsvFileSource(resources = "/data/policy/repair-hints.csv", numLinesToSkip = 1)
    void whatTheTradeDoesFirstIsNotForbiddenAndWhatItRulesOutIs(
            String finding, String facts, String choices, String ruledOut) {
        for (String option : choices.split("\\+")) assertEquals("", forbidding(option, facts), finding + ": " + option);
        if (ruledOut == null) return;
        for (String option : ruledOut.split("\\+"))
            assertFalse(forbidding(option, facts).isEmpty(), finding + ": " + option + " is not ruled out");
    }

    private static String forbidding(String option, String facts) {
        String splices = option.equals("splice-repair") ? " newSplices=1 splicesAfter=1" : "";
        String edits = Arrays.stream(("option=" + option + " " + facts + splices).split(" "))
                .map(edit -> "remedy." + edit)
                .collect(Collectors.joining(" "));
        Facts edited = new RemedyRulesTest().neutral().with(edits);
        return BUILT_IN
                .remedies(edited.of(EvidenceFact.class).get(0), edited.of(RemedyFact.class))
                .rulings("remedy", RemedyRuling.Effect.FORBID)
                .stream()
                .map(RemedyRuling::rule)
                .collect(Collectors.joining("; "));
    }
}
