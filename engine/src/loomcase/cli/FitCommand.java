package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.fit.Fit;
import loomcase.fit.FitDocument;
import loomcase.fit.FitPicture;
import loomcase.fit.FitReport;
import loomcase.fit.FitResult;
import loomcase.json.FitJson;
import loomcase.model.Circuit;
import loomcase.model.read.PartList;
import loomcase.print.Html;
import loomcase.print.Pdf;
import picocli.CommandLine;

/** Compares a new harness with the old one. */
@CommandLine.Command(
        name = "fit",
        description = {
            "Say whether a new harness fits in place of an old one, with the sheet for moving terminals where it needs"
                    + " them moved, and what each slip would lead to.",
            "NEW is a circuit file, or a list of what is known of the part (CSV): a cavity list (" + PartList.CAVITIES
                    + ") or a wire list (see 'loomcase wires --help')."
        },
        footer = {
            "",
            "Examples:",
            "  loomcase fit demo-cases/fit/year-1.json demo-cases/fit/year-3.json",
            "  loomcase fit circuits/larch-13.json demo-cases/fit/larch-13-j1-later.csv"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:an answer: it fits, fits with transfer, or does not fit",
            "1:not settled: it fits as far as is known, but something that matters could not be compared",
            "2:bad input; one line says what and where",
            "3:a fault in Loomcase itself"
        })
final class FitCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Parameters(
            index = "0",
            paramLabel = "OLD",
            description = "circuit file of the harness that is fitted now")
    private Path old;

    @CommandLine.Parameters(index = "1", paramLabel = "NEW", description = "circuit file, or list ending in .csv")
    private Path neu;

    @CommandLine.Option(
            names = "--rules",
            paramLabel = "FOLDER",
            description = "the shop's own rules, laid over the built-in ones")
    private Path rules;

    @CommandLine.Option(names = "--json", description = "print JSON instead of text")
    private boolean json;

    @CommandLine.Option(
            names = "--svg",
            paramLabel = "FILE",
            description = "also draw the two mating faces of a plug, moved cavities marked")
    private Path svg;

    @CommandLine.Option(
            names = "--plug",
            paramLabel = "ID",
            description = "old plug to draw; without it the first one whose terminals move")
    private String plug;

    @CommandLine.Option(names = "--html", paramLabel = "FILE", description = "also write the sheet as a page")
    private Path html;

    @CommandLine.Option(names = "--pdf", paramLabel = "FILE", description = "also write the sheet to print, A4")
    private Path pdf;

    @CommandLine.Option(
            names = "--date",
            paramLabel = "YYYY-MM-DD",
            description = "date that the sheet bears; without it today")
    private LocalDate date = LocalDate.now();

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        if (plug != null && svg == null)
            throw new InputProblem("--plug says which plug to draw; give it with --svg FILE");
        Bench bench = new Casework(new Shop(Optional.ofNullable(rules), Optional.empty())).circuit(old);
        FitResult fit = compare(bench.circuit(), neu);
        FitReport report = FitReport.of(fit, bench.policy());
        if (svg != null) WholeFile.write(svg, FitPicture.svg(drawn(fit)));
        if (html != null) WholeFile.write(html, Html.write(FitDocument.of(report, date)));
        if (pdf != null) WholeFile.write(pdf, Pdf.write(FitDocument.of(report, date), Pdf.Paper.A4));
        if (json) FitJson.of(report).print(out);
        else new FitText(report, Page.of(out)).print();
        out.flush();
        return fit.settled() ? Main.ANSWER : Main.NOT_SETTLED;
    }

    private static FitResult compare(Circuit old, Path neu) {
        return PartList.read(neu)
                .map(list -> list.cavities()
                        .map(c -> Fit.compare(old, list.name(), c))
                        .orElseGet(
                                () -> Fit.compare(old, list.name(), list.wires().orElseThrow())))
                .orElseGet(() -> Fit.compare(
                        old, new Casework(Shop.BUILT_IN).circuit(neu).circuit()));
    }

    private FitResult.PlugMatch drawn(FitResult fit) {
        String wanted = plug != null
                ? plug
                : fit.transfers().stream()
                        .map(t -> t.plug())
                        .findFirst()
                        .orElseGet(() -> fit.plugs().isEmpty()
                                ? ""
                                : fit.plugs().get(0).old().id());
        return fit.plugs().stream()
                .filter(p -> p.old().id().equals(wanted))
                .findFirst()
                .orElseThrow(() -> new InputProblem("--plug " + wanted + ": no such plug of both harnesses; there are "
                        + String.join(
                                ", ",
                                fit.plugs().stream().map(p -> p.old().id()).toList())));
    }
}
