package loomcase.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.casework.Shop;
import loomcase.claim.Audit;
import loomcase.claim.ClaimDocument;
import loomcase.claim.Packet;
import loomcase.claim.PacketMaker;
import loomcase.json.AuditJson;
import loomcase.json.ClaimJson;
import loomcase.print.Document;
import loomcase.print.Html;
import loomcase.print.Pdf;
import loomcase.print.Text;
import loomcase.print.Wording;
import picocli.CommandLine;

/** Makes the claim of a case, or says what is missing; audits a folder of cases. */
@CommandLine.Command(
        name = "claim",
        description = "Make the claim of a case, with what is missing on its first page.",
        sortOptions = false,
        synopsisHeading = "",
        customSynopsis = {
            "Usage: loomcase claim CASE [OPTIONS]",
            "       loomcase claim --audit FOLDER [--csv FILE] [OPTIONS]"
        },
        footer = {
            "",
            "Examples:",
            "  loomcase claim demo-cases/claims/splice.jsonl --pdf claim.pdf",
            "  loomcase claim --audit demo-cases/claims --csv claims.csv"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:it can be sent; of a folder: all can",
            "1:something blocks it, or it contradicts itself; of a folder: of at least one case, or one cannot be read",
            "2:bad input, such as an edited line; one line says what and where",
            "3:a fault in Loomcase itself"
        })
final class ClaimCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(arity = "0..1", paramLabel = "CASE", description = "case file")
    private Path file;

    @CommandLine.Option(names = "--audit", paramLabel = "FOLDER", description = "instead: every case of a folder")
    private Path audit;

    @CommandLine.Option(names = "--csv", paramLabel = "FILE", description = "also write the audit as CSV")
    private Path csv;

    @CommandLine.Option(names = "--html", paramLabel = "FILE", description = "also write the claim as a page")
    private Path html;

    @CommandLine.Option(names = "--pdf", paramLabel = "FILE", description = "also write it as PDF, on A4")
    private Path pdf;

    @CommandLine.Option(names = "--letter", description = "PDF on Letter instead of A4")
    private boolean letter;

    @CommandLine.Option(names = "--json", description = "print JSON instead of text")
    private boolean json;

    @CommandLine.Option(names = "--language", paramLabel = "LANGUAGE", description = "en or de; en if not given")
    private String language = "en";

    @CommandLine.Option(
            names = "--rules",
            paramLabel = "FOLDER",
            description = "folder with the shop's own rules, laid over the built-in ones")
    private Path rules;

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() {
        if ((file == null) == (audit == null))
            throw new InputProblem("name either a case or --audit with a folder of cases");
        Casework casework = new Casework(new Shop(Optional.ofNullable(rules), Optional.empty()));
        int code = file == null ? audit(casework) : claim(casework.open(file));
        spec.commandLine().getOut().flush();
        return code;
    }

    private Locale locale() {
        return Wording.LANGUAGES.stream()
                .filter(l -> l.getLanguage().equals(language))
                .findFirst()
                .orElseThrow(() -> new InputProblem("--language '" + language + "' is not one of "
                        + String.join(
                                ", ",
                                Wording.LANGUAGES.stream()
                                        .map(Locale::getLanguage)
                                        .toList())));
    }

    private int claim(OpenCase open) {
        if (csv != null) throw new InputProblem("--csv goes with --audit");
        Packet packet = PacketMaker.of(open, locale());
        Document document = ClaimDocument.of(open, packet, locale());
        if (html != null) WholeFile.write(html, Html.write(document));
        if (pdf != null) WholeFile.write(pdf, Pdf.write(document, letter ? Pdf.Paper.LETTER : Pdf.Paper.A4));
        PrintWriter out = spec.commandLine().getOut();
        if (json) ClaimJson.of(packet).print(out);
        else out.print(Text.write(document, Page.columns()));
        return packet.canBeSent() ? Main.ANSWER : Main.NOT_SETTLED;
    }

    private int audit(Casework casework) {
        if (html != null || pdf != null)
            throw new InputProblem("--html and --pdf go with one case; of a folder there are --csv and --json");
        Audit result = Audit.of(casework, audit, locale());
        if (csv != null) WholeFile.write(csv, AuditText.csv(result).getBytes(StandardCharsets.UTF_8));
        PrintWriter out = spec.commandLine().getOut();
        if (json) AuditJson.of(result).print(out);
        else AuditText.print(result, Page.of(out));
        return result.allClaimable() ? Main.ANSWER : Main.NOT_SETTLED;
    }
}
