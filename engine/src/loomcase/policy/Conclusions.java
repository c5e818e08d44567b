package loomcase.policy;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The words a rule about codes, places and tests may say after {@code then}: {@code mask}, {@code shows}, {@code caution}, {@code forbid} and {@code
 * warn}.
 */
public final class Conclusions extends Speech {
    private static final Pattern SHARE = Pattern.compile("\\s*(\\d+(?:\\.\\d+)?)\\s*% as (\\d{1,2})\\s*");
    private static final double PERCENT_SLACK = 1e-6;

    private final Set<Mask> masks = new LinkedHashSet<>();
    private final Set<FmiReading> readings = new LinkedHashSet<>();
    private final Set<Caution> cautions = new LinkedHashSet<>();
    private final Set<TestRuling> tests = new LinkedHashSet<>();

    public Conclusions() {}

    /**
     * While {@code by} is active, {@code hidden} is kept back.
     *
     * @param strength probability of that, over 0 and up to 1
     */
    public void mask(WatchedCode by, WatchedCode hidden, double strength) {
        masks.add(new Mask(by.spn(), by.fmi(), hidden.spn(), hidden.fmi(), strength, speaker(), reason()));
    }

    /**
     * On this kind of circuit the condition is shown so.
     *
     * @param shares such as {@code "95 % as 3, 5 % as 2"}; the shares add up to 100 %
     */
    public void shows(String circuitKind, int conditionFmi, String shares) {
        List<FmiReading> added = new ArrayList<>();
        double total = 0;
        for (String share : shares.split(",")) {
            Matcher match = SHARE.matcher(share);
            if (!match.matches()) {
                throw new IllegalArgumentException(
                        "shares \"" + shares + "\" cannot be read; write them as \"95 % as 3, 5 % as 2\"");
            }
            double percent = Double.parseDouble(match.group(1));
            total += percent;
            int shownFmi = Integer.parseInt(match.group(2));
            added.add(new FmiReading(circuitKind, conditionFmi, shownFmi, percent / 100, speaker(), source()));
        }
        if (Math.abs(total - 100) > PERCENT_SLACK) {
            throw new IllegalArgumentException("shares \"" + shares + "\" add up to " + total + " %; allowed is 100 %");
        }
        readings.addAll(added);
    }

    /** Before work at this place, warn. */
    public void caution(PlaceFact place, String text) {
        cautions.add(new Caution(place.id(), text, speaker(), source()));
    }

    /** Tests that may do this harm are never proposed. */
    public void forbid(HarmFact harm, String text) {
        tests.add(new TestRuling(harm.harm(), true, text, speaker(), source()));
    }

    /** Tests that may do this harm carry the text as a caution. */
    public void warn(HarmFact harm, String text) {
        tests.add(new TestRuling(harm.harm(), false, text, speaker(), source()));
    }

    /** The shares of one kind and condition are said once: those of two rules would add up to more than the whole. */
    @Override
    void checkTogether() {
        Map<String, Double> totals = new TreeMap<>();
        Map<String, Set<String>> speakers = new TreeMap<>();
        for (FmiReading reading : readings) {
            String key = "\"" + reading.circuitKind() + "\" condition " + reading.conditionFmi();
            totals.merge(key, reading.weight(), Double::sum);
            speakers.computeIfAbsent(key, any -> new TreeSet<>()).add(reading.rule());
        }
        totals.forEach((key, total) -> {
            if (total > 1 + 1e-9) {
                Set<String> rules = speakers.get(key);
                throw new Contradiction(
                        rules.iterator().next(),
                        "how " + key + " is shown is said twice (by " + String.join(" and ", rules)
                                + "); allowed is one rule that says it once");
            }
        });
    }

    List<TestRuling> tests() {
        return List.copyOf(tests);
    }

    List<Mask> masks() {
        return List.copyOf(masks);
    }

    List<FmiReading> readings() {
        return List.copyOf(readings);
    }

    List<Caution> cautions() {
        return List.copyOf(cautions);
    }
}
