package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import loomcase.Schemas;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The command {@code job}: the published form, what is open already, files, mistakes word for word. */
class JobCommandTest {
    private static final String CASE = "demo-cases/shared-splice.jsonl";

    @TempDir
    private Path folder;

    private static JsonNode json(String... arguments) throws IOException {
        Ran ran = Ran.of(arguments);
        assertEquals("", ran.err());
        assertEquals(0, ran.code());
        assertEquals(List.of(), Schemas.errors(Schemas.of("job.schema.json"), ran.out()));
        return new ObjectMapper().readTree(ran.out());
    }

    @ParameterizedTest
    @ValueSource(strings = {"--harness", "--section=hot-side", "--place=S5A,W123,J2/2,C-FRP,BE10,G1,F1,EGR,ECM"})
    void everyKindOfWorkHasThePublishedForm(String work) throws IOException {
        JsonNode sheet = json("job", "--circuit", Ran.LARCH, work, "--json");
        double minutes = 0;
        for (JsonNode t : sheet.get("opening")) minutes += t.get("minutes").asDouble();
        assertEquals(minutes, sheet.get("accessMinutes").asDouble(), 1e-9);
    }

    @Test
    void aDateThatIsNoneIsSaidWithoutJavasWords() {
        Ran.of("job", CASE, "--place", "S5A", "--date", "2024-13-45")
                .refusedWith("invalid value for option '--date': '2024-13-45' is no day of the calendar such as"
                        + " 2024-05-01; see 'loomcase job --help'");
    }

    /** 7 minutes for the fuel filter guard alone: the case has the hood, the side guard and the bracket open. */
    @Test
    void whatIsOpenInTheCaseIsNotPaidAgainButClosed() throws IOException {
        JsonNode sheet = json("job", CASE, "--place", "C-FDP", "--json");
        assertEquals(7, sheet.get("accessMinutes").asDouble());
        assertEquals(3, sheet.get("alreadyOpen").size());
        String closing = sheet.get("closing").toString();
        for (String after : List.of(
                "Bleed fuel system and check that it is tight",
                "Torque bracket bolts per maker",
                "Close hood, both latches")) assertTrue(closing.contains(after), closing);
        assertTrue(sheet.get("opening").toString().contains("Fuel under pressure"), sheet.toString());
    }

    @Test
    void whereEverythingIsOpenTheSheetSaysSo() {
        String text = Ran.of("job", "demo-cases/shared-splice.jsonl", "--place", "S5A")
                .out();
        assertTrue(text.contains("Nothing has to be opened any more."), text);
        text = Ran.of("job", "--circuit", "circuits/larch-13.json", "--place", "S5A")
                .out();
        assertTrue(text.contains("minutes of access are still to come."), text);
    }

    @Test
    void pageAndPaper() throws IOException {
        Path html = folder.resolve("j.html");
        Path pdf = folder.resolve("j.pdf");
        Ran ran = Ran.of(
                "job",
                "--circuit",
                Ran.LARCH,
                "--section",
                "hot-side",
                "--html",
                html.toString(),
                "--pdf",
                pdf.toString(),
                "--date",
                "2026-11-02",
                "--paper",
                "letter");
        assertEquals(0, ran.code(), ran.err());
        assertTrue(ran.out().contains("Replace section hot-side"), ran.out());
        assertTrue(Files.readString(html).contains("Close up, in this order"));
        assertEquals("%PDF-", new String(Files.readAllBytes(pdf), 0, 5, StandardCharsets.US_ASCII));
    }

    @Test
    void mistakes() {
        Ran.of("job", "--circuit", Ran.LARCH)
                .refusedWith("say what the work is: one of --place PLACE,..., --section ID, --harness");
        Ran.of("job", "--circuit", Ran.LARCH, "--harness", "--section", "front")
                .refusedWith("say what the work is: one of --place PLACE,..., --section ID, --harness");
        Ran.of("job", CASE, "--circuit", Ran.LARCH, "--harness")
                .refusedWith("a case brings its own circuit; leave out --circuit");
        Ran.of("job", "--harness").refusedWith("name the circuit: --circuit FILE");
        Ran.of("job", "--circuit", Ran.TEACHING, "--section", "x")
                .refusedWith("section x: the circuit has sections front");
    }
}
