package loomcase.web;

import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import loomcase.casework.Advice;
import loomcase.casework.Bench;
import loomcase.casework.CaseFile;
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
import loomcase.json.JsonText;
import loomcase.json.ProofJson;
import loomcase.json.VerdictJson;
import loomcase.print.Document;
import loomcase.print.Pdf;
import loomcase.print.Wording;
import loomcase.proof.ProofDocument;
import loomcase.proof.ProofReport;
import loomcase.verdict.Verdict;

/** Answers about what to do, how, whether it fits and whether it is fixed; each also as a sheet to print. */
final class Advising {
    private static final double MOST_PER_HOUR = 1e7;

    private final CaseFolder folder;
    private final Casework casework;

    private final Answers answers;

    Advising(CaseFolder folder, Casework casework, Answers answers) {
        this.answers = answers;
        this.folder = folder;
        this.casework = casework;
    }

    void verdict(HttpServerExchange exchange, String name, Api.Query query) {
        OpenCase open = folder.open(name);
        Advice advice = new Advice(Optional.empty(), rate(query, "labour"), rate(query, "downtime"));
        if (ranked(exchange, open))
            send(exchange, key("verdict", open) + advice, () -> {
                Verdict verdict = open.answer().verdict(advice);
                return VerdictJson.of(open.answer(), verdict);
            });
    }

    /** True when the ranking of a case is there; otherwise how far it is has been sent. */
    private boolean ranked(HttpServerExchange exchange, OpenCase open) {
        if (!open.hasCodes() || answers.within(open, Reply.PATIENCE_MILLIS).isPresent()) return true;
        Reply.underWay(exchange, OptionalDouble.of(answers.share(open)));
        return false;
    }

    /** Sends what takes its time, or word that it is being made. */
    private void send(HttpServerExchange exchange, String key, Supplier<JsonText> work) {
        Optional<JsonText> done = answers.within(key, Reply.PATIENCE_MILLIS, work);
        if (done.isPresent()) Reply.json(exchange, done.get());
        else Reply.underWay(exchange, OptionalDouble.empty());
    }

    private static String key(String what, OpenCase open) {
        return what + " " + open.file().getFileName() + " "
                + open.journal().last().hex() + " ";
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
                    open,
                    "job",
                    sheet.toString(),
                    false,
                    () -> JobDocument.of(
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
        Supplier<ProofReport> work =
                () -> ProofReport.of(open.circuit(), open.bench().layout(), open.journal(), () -> open.answer()
                        .ranking());
        if (query.maybe("pdf").isPresent())
            pdf(exchange, open, "proof", "", true, () -> ProofDocument.of(work.get(), LocalDate.now()));
        else if (ranked(exchange, open)) send(exchange, key("proof", open), () -> ProofJson.of(work.get()));
    }

    /** The case's harness against a replacement whose circuit file is among those offered. */
    void fit(HttpServerExchange exchange, String name, Api.Query query) {
        OpenCase open = folder.open(name);
        String wanted = query.text("new");
        Path file = Optional.ofNullable(folder.circuits().get(wanted))
                .orElseThrow(
                        () -> new Refusal(Refusal.BAD_REQUEST, "new: '" + wanted + "' is not one of those offered"));
        Bench other = casework.circuit(file);
        Supplier<FitReport> work = () -> FitReport.of(
                Fit.compare(open.circuit(), other.circuit()), open.bench().policy());
        if (query.maybe("pdf").isPresent())
            pdf(exchange, open, "fit", other.digest().hex(), false, () -> FitDocument.of(work.get(), LocalDate.now()));
        else send(exchange, key("fit", open) + other.digest().hex(), () -> FitJson.of(work.get()));
    }

    /** The claim as it stands, with what is missing and what to record against that. */
    void claim(HttpServerExchange exchange, String name, Api.Query query) {
        OpenCase open = folder.open(name);
        Locale language = Wording.LANGUAGES.stream()
                .filter(l -> l.getLanguage().equals(query.maybe("language").orElse("en")))
                .findFirst()
                .orElseThrow(() -> new Refusal(Refusal.BAD_REQUEST, "language: is not one of en, de"));
        if (query.maybe("pdf").isPresent())
            pdf(
                    exchange,
                    open,
                    "claim",
                    language.getLanguage(),
                    true,
                    () -> ClaimDocument.of(open, PacketMaker.of(open, language), language));
        else if (ranked(exchange, open))
            send(exchange, key("claim", open) + language, () -> {
                Packet packet = PacketMaker.of(open, language);
                return ClosingJson.of(packet, Closing.of(open, packet));
            });
    }

    /**
     * A sheet to print. In a browser's tab it is shown, and what takes its time shows how far it is; whoever else asks waits.
     *
     * @param what kind of sheet, for its name
     * @param which tells this one from others of its kind
     * @param weighs whether the faults are ranked for it
     */
    private void pdf(
            HttpServerExchange exchange,
            OpenCase open,
            String what,
            String which,
            boolean weighs,
            Supplier<Document> work) {
        Supplier<byte[]> sheet = () -> Pdf.write(work.get(), Pdf.Paper.A4);
        Optional<byte[]> done;
        if (!Reply.isForPerson(exchange)) done = Optional.of(sheet.get());
        else if (weighs
                && open.hasCodes()
                && answers.within(open, Reply.PATIENCE_MILLIS).isEmpty()) {
            Reply.waiting(exchange, OptionalDouble.of(answers.share(open)));
            return;
        } else done = answers.within(key("pdf " + what, open) + which, Reply.PATIENCE_MILLIS, sheet);
        if (done.isEmpty()) {
            Reply.waiting(exchange, OptionalDouble.empty());
            return;
        }
        String name = what + "-" + open.file().getFileName().toString().replace(CaseFile.ENDING, "") + ".pdf";
        exchange.getResponseHeaders().put(Headers.CONTENT_DISPOSITION, "inline; filename=\"" + name + "\"");
        Reply.send(exchange, 200, "application/pdf", done.get());
    }
}
