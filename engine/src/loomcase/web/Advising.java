package loomcase.web;

import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.casework.Advice;
import loomcase.casework.Answer;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.claim.ClaimDocument;
import loomcase.claim.Closing;
import loomcase.claim.Packet;
import loomcase.claim.PacketMaker;
import loomcase.fit.Fit;
import loomcase.fit.FitDocument;
import loomcase.fit.FitReport;
import loomcase.job.JobDocument;
import loomcase.job.JobPlanner;
import loomcase.job.JobSheet;
import loomcase.job.Work;
import loomcase.json.ClosingJson;
import loomcase.json.FitJson;
import loomcase.json.JobJson;
import loomcase.json.ProofJson;
import loomcase.json.VerdictJson;
import loomcase.print.Document;
import loomcase.print.Pdf;
import loomcase.print.Wording;
import loomcase.proof.ProofDocument;
import loomcase.proof.ProofReport;

/** Answers about what to do, how, whether it fits and whether it is fixed; each also as a sheet to print. */
final class Advising {
    private static final double MOST_PER_HOUR = 1e7;

    private final CaseFolder folder;
    private final Casework casework;

    Advising(CaseFolder folder, Casework casework) {
        this.folder = folder;
        this.casework = casework;
    }

    void verdict(HttpServerExchange exchange, String name, Api.Query query) {
        Answer answer = folder.open(name).answer();
        Advice advice = new Advice(Optional.empty(), rate(query, "labour"), rate(query, "downtime"));
        Reply.json(exchange, VerdictJson.of(answer, answer.verdict(advice)));
    }

    private static OptionalDouble rate(Api.Query query, String field) {
        Optional<String> text = query.maybe(field).map(t -> t.replace(',', '.').strip());
        if (text.isEmpty()) return OptionalDouble.empty();
        if (!text.get().matches("\\d{1,8}(\\.\\d{1,4})?") || Double.parseDouble(text.get()) > MOST_PER_HOUR)
            throw new Refusal(
                    Refusal.BAD_REQUEST, field + ": '" + text.get() + "' is not an amount from 0 to 10000000 an hour");
        return OptionalDouble.of(Double.parseDouble(text.get()));
    }

    /** The job sheet of work at places, or on a section, or the whole harness. */
    void job(HttpServerExchange exchange, String name, Api.Query query) {
        OpenCase open = folder.open(name);
        JobSheet sheet = sheet(open, query);
        if (query.maybe("pdf").isEmpty()) Reply.json(exchange, JobJson.of(open.circuit(), sheet));
        else
            pdf(
                    exchange,
                    JobDocument.of(
                            open.circuit(),
                            sheet,
                            open.journal().opened().unit().orElse(""),
                            LocalDate.now()));
    }

    private static JobSheet sheet(OpenCase open, Api.Query query) {
        Work work = query.maybe("harness").isPresent()
                ? new Work.Harness()
                : query.maybe("section")
                        .<Work>map(Work.Section::new)
                        .orElseGet(() -> new Work.Repair(Api.list(query.text("place")).stream()
                                .map(p -> open.check().names().spot(p).place())
                                .distinct()
                                .toList()));
        return new JobPlanner(
                        open.circuit(), open.bench().layout(), open.bench().policy())
                .plan(work, open.journal().openAccess());
    }

    void proof(HttpServerExchange exchange, String name, Api.Query query) {
        OpenCase open = folder.open(name);
        ProofReport report = ProofReport.of(open.circuit(), open.bench().layout(), open.journal(), () -> open.answer()
                .ranking());
        if (query.maybe("pdf").isEmpty()) Reply.json(exchange, ProofJson.of(report));
        else pdf(exchange, ProofDocument.of(report, LocalDate.now()));
    }

    /** The case's harness against a replacement whose circuit file is among those offered. */
    void fit(HttpServerExchange exchange, String name, Api.Query query) {
        OpenCase open = folder.open(name);
        String wanted = query.text("new");
        Path file = Optional.ofNullable(folder.circuits().get(wanted))
                .orElseThrow(
                        () -> new Refusal(Refusal.BAD_REQUEST, "new: '" + wanted + "' is not one of those offered"));
        FitReport report = FitReport.of(
                Fit.compare(open.circuit(), casework.circuit(file).circuit()),
                open.bench().policy());
        if (query.maybe("pdf").isEmpty()) Reply.json(exchange, FitJson.of(report));
        else pdf(exchange, FitDocument.of(report, LocalDate.now()));
    }

    /** The claim as it stands, with what is missing and what to record against that. */
    void claim(HttpServerExchange exchange, String name, Api.Query query) {
        OpenCase open = folder.open(name);
        Locale language = Wording.LANGUAGES.stream()
                .filter(l -> l.getLanguage().equals(query.maybe("language").orElse("en")))
                .findFirst()
                .orElseThrow(() -> new Refusal(Refusal.BAD_REQUEST, "language: is not one of en, de"));
        Packet packet = PacketMaker.of(open, language);
        if (query.maybe("pdf").isEmpty()) Reply.json(exchange, ClosingJson.of(packet, Closing.of(open, packet)));
        else pdf(exchange, ClaimDocument.of(open, packet, language));
    }

    private static void pdf(HttpServerExchange exchange, Document document) {
        exchange.getResponseHeaders().put(Headers.CONTENT_DISPOSITION, "attachment; filename=\"sheet.pdf\"");
        Reply.send(exchange, 200, "application/pdf", Pdf.write(document, Pdf.Paper.A4));
    }
}
