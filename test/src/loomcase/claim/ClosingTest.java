package loomcase.claim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.casework.Shop;
import loomcase.journal.Fact;
import loomcase.journal.Standing;
import loomcase.policy.ClaimGap;
import org.junit.jupiter.api.Test;

/** What would close the gaps of the invented demo claims; the wanted lines are read off the stories by hand. */
class ClosingTest {
    private static final Casework CASEWORK = new Casework(Shop.BUILT_IN);

    private static OpenCase demo(String name) {
        return CASEWORK.open(Path.of("demo-cases/claims", name + ".jsonl"));
    }

    private static Map<String, Closing.Line> byRule(String name) {
        OpenCase open = demo(name);
        Packet packet = PacketMaker.withoutVerdict(open, Locale.ENGLISH);
        List<Optional<Closing.Line>> lines = Closing.of(open, packet);
        assertEquals(packet.outcome().gaps().size(), lines.size());
        Map<String, Closing.Line> out = new TreeMap<>();
        for (int i = 0; i < lines.size(); i++) {
            ClaimGap gap = packet.outcome().gaps().get(i);
            lines.get(i).ifPresent(l -> out.putIfAbsent(gap.rule(), l));
        }
        return out;
    }

    @Test
    void eachGapOfTheIncompleteStoryHasTheLineThatItIsAbout() {
        Map<String, Closing.Line> lines = byRule("incomplete");
        assertEquals(OptionalInt.of(1), lines.get("Unit and serial number").corrects());
        assertEquals("opened", lines.get("Unit and serial number").kind());
        // The reading is line 4, the choice line 5, the part that is claimed line 7.
        assertEquals(OptionalInt.of(4), lines.get("Leads are zeroed").corrects());
        assertEquals(OptionalInt.of(4), lines.get("The meter is named").corrects());
        assertEquals(OptionalInt.of(5), lines.get("The damage has a cause").corrects());
        assertEquals(
                OptionalInt.of(7),
                lines.get("The part claimed is the part that failed").corrects());
        assertEquals(OptionalInt.of(4), lines.get("Readings after").like());
        assertEquals("codes", lines.get("Codes after").kind());
        assertEquals(
                Map.of("view", "close-up"), lines.get("A photo of the damage").known());
        assertEquals(
                "C-OPS/3",
                lines.get("A photo of the damage").place().orElseThrow().place().id());
        assertEquals("kept", lines.get("The failed part is kept").kind());
        assertEquals(
                Map.of("part", "oil pressure sensor"),
                lines.get("The failed part is kept").known());
    }

    @Test
    void aLineThatIsToBeCorrectedIsOfTheKindThatIsProposed() {
        for (String name : DemoClaims.NAMES) {
            OpenCase open = demo(name);
            for (Closing.Line l : byRule(name).values()) {
                int n = l.corrects().orElse(l.like().orElse(0));
                if (n == 0) continue;
                Fact fact = open.journal().standing().stream()
                        .filter(s -> s.n() == n)
                        .map(Standing::fact)
                        .findFirst()
                        .orElseThrow();
                assertEquals(l.kind(), fact.kind(), name + " line " + n);
            }
        }
    }

    /** A rule file's fields, read from the files themselves; a new one must be thought of here. */
    @Test
    void everyFieldThatARuleNamesIsAskedForOrSaidToHaveNoLine() throws IOException {
        List<String> fields = new ArrayList<>();
        for (String file : List.of("claim-words.drl", "claim-evidence.drl", "claim-parts.drl")) {
            Matcher m = Pattern.compile("conclude\\.\\w+\\(\"([a-z-]+)\"")
                    .matcher(Files.readString(Path.of("rules", file)));
            while (m.find()) fields.add(m.group(1).endsWith("-") ? m.group(1) + "before" : m.group(1));
        }
        assertTrue(fields.size() > 30);
        OpenCase open = demo("incomplete");
        Packet packet = PacketMaker.withoutVerdict(open, Locale.ENGLISH);
        TreeSet<String> without = new TreeSet<>();
        for (String field : fields) {
            ClaimGap gap = new ClaimGap(ClaimGap.Severity.BLOCKS, field, "x", "x", "x");
            if (Closing.line(open, packet, gap).isEmpty()) without.add(field);
        }
        // Costs and chain are nobody's to record; which step or part is meant stands in the gap's words.
        assertEquals(new TreeSet<>(List.of("access", "costs", "evidence", "parts-kept")), without);
    }
}
