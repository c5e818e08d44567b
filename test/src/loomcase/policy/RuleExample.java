package loomcase.policy;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.apache.commons.csv.CSVFormat;

/**
 * The worked example of a rule, which is its test as well.
 *
 * @param rule its name
 * @param facts edits of the neutral facts after which it speaks
 * @param says what it then says
 * @param nearMiss edits on top of those, after which it is silent again
 */
record RuleExample(String rule, String facts, String says, String nearMiss) {
    static List<RuleExample> read(String file) {
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .setCommentMarker('#')
                .get();
        try (Reader in = new InputStreamReader(
                RuleExample.class.getResourceAsStream("/data/policy/" + file), StandardCharsets.UTF_8)) {
            return format.parse(in).stream()
                    .map(row ->
                            new RuleExample(row.get("rule"), row.get("facts"), row.get("says"), row.get("near miss")))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public String toString() {
        return rule;
    }
}
