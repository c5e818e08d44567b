package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import loomcase.json.JsonText;
import loomcase.print.Document;
import loomcase.print.Html;
import loomcase.print.Pdf;
import loomcase.print.Text;
import picocli.CommandLine;

/** Options of every command that makes a sheet: text or JSON on the output, and files to show and to print. */
final class SheetOutput {
    @CommandLine.Option(names = "--json", description = "print JSON instead of text")
    private boolean json;

    @CommandLine.Option(names = "--html", paramLabel = "FILE", description = "also write the sheet as a page")
    private Path html;

    @CommandLine.Option(names = "--pdf", paramLabel = "FILE", description = "also write the sheet to print")
    private Path pdf;

    @CommandLine.Option(
            names = "--paper",
            paramLabel = "SIZE",
            description = "paper of the PDF: a4 or letter; without it a4")
    private Pdf.Paper paper = Pdf.Paper.A4;

    @CommandLine.Option(
            names = "--date",
            paramLabel = "YYYY-MM-DD",
            description = "date that the sheet bears; without it today")
    private LocalDate date = LocalDate.now();

    /** The date that the sheet bears. */
    LocalDate date() {
        return date;
    }

    /** Writes the files asked for, then the text or the JSON. */
    void write(Document document, JsonText asJson, PrintWriter out) {
        if (html != null) WholeFile.write(html, Html.write(document));
        if (pdf != null) WholeFile.write(pdf, Pdf.write(document, paper));
        if (json) asJson.print(out);
        else out.print(Text.write(document, Page.columns()));
        out.flush();
    }
}
