package loomcase.proof;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.journal.Standing;
import loomcase.print.Block;
import loomcase.print.Document;
import loomcase.print.Phrase;
import loomcase.print.Section;
import loomcase.proof.Proof.Check;
import loomcase.proof.Proof.Kind;
import loomcase.proof.Proof.State;

/** The proof as a sheet: the answer, what is left to do with boxes to tick, what was found, the lines of the case. */
public final class ProofDocument {
    private static final Set<Kind> METER = Set.of(Kind.CONTINUITY, Kind.ISOLATION);

    private static final DateTimeFormatter WHEN = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm xxx", Locale.ROOT);

    private final ProofReport report;

    private ProofDocument(ProofReport report) {
        this.report = report;
    }

    /**
     * The sheet.
     *
     * @param date the date it bears
     */
    public static Document of(ProofReport report, LocalDate date) {
        return new ProofDocument(report).document(date);
    }

    private Document document(LocalDate date) {
        List<Section> sections = new ArrayList<>();
        sections.add(answer());
        if (!in(State.CONTRADICTED).isEmpty()) sections.add(against());
        if (report.after().isPresent()) sections.add(suspects(report.after().get()));
        measure().ifPresent(sections::add);
        if (!toDo().isEmpty()) sections.add(Section.of("To do and to see", new Block.Steps(toDo())));
        if (!in(State.PASSED).isEmpty()) sections.add(passed());
        sections.add(Section.of(
                "Lines of the case",
                new Block.Evidence(
                        report.standing().stream().map(ProofDocument::line).toList())));
        return new Document(
                "Proof of repair",
                report.opened().complaint(),
                Locale.ENGLISH,
                date,
                List.of(
                        Block.Detail.of(
                                "Circuit",
                                report.circuit().id() + ", " + report.circuit().title()),
                        Block.Detail.of("Unit", report.opened().unit().orElse("")),
                        Block.Detail.of("Data", report.circuit().origin()),
                        Block.Detail.blank("Checked by, date")),
                sections,
                "Proof of repair, " + report.circuit().id());
    }

    private List<Check> in(State state) {
        return report.proof().in(state);
    }

    private Section answer() {
        List<Block> blocks = new ArrayList<>();
        blocks.add(Block.Paragraph.of(Phrase.strong(report.answer())));
        report.after()
                .flatMap(a -> a.suspects().stream().findFirst())
                .ifPresent(x -> blocks.add(Block.Paragraph.of(Phrase.of(
                        "Likeliest after the work, " + percent(x.probability()) + ": " + x.sentence() + "."))));
        blocks.add(Block.Paragraph.of(
                Phrase.of("Work judged: " + work() + ".").from(report.proof().workLines())));
        if (!report.proof().notes().isEmpty())
            blocks.add(new Block.Points(
                    report.proof().notes().stream().map(Phrase::of).toList()));
        return new Section("Answer", blocks);
    }

    private String work() {
        return String.join(
                "; ",
                report.standing().stream()
                        .filter(s -> report.proof().workLines().contains(s.n()))
                        .map(s -> s.fact().toString())
                        .toList());
    }

    private Section against() {
        return Section.of(
                "What contradicts",
                new Block.Points(in(State.CONTRADICTED).stream()
                        .map(c -> new Phrase(c.words() + ". Found: " + c.found() + ".", true, c.lines()))
                        .toList()));
    }

    private static Section suspects(AfterWork after) {
        return Section.of(
                "What would explain the codes after the work",
                Block.Paragraph.of(
                        "Weighed from what was seen after the work alone; a slip at a plug that was apart counts"
                                + " as far likelier than at one that nobody touched (rules/priors.csv, work.slip)."),
                new Block.Table(
                        "Suspects, likeliest first",
                        List.of(
                                Block.Column.number("Share"),
                                Block.Column.text("Fault, and what the codes cannot tell from it")),
                        after.suspects().stream().map(ProofDocument::row).toList()),
                Block.Paragraph.of(
                        "Faults of one row cannot be told apart by the codes. Nothing in this model explains them: "
                                + percent(after.unexplained()) + "."));
    }

    private static Block.Row row(AfterWork.Suspect s) {
        List<String> slips = s.slips().stream()
                .filter(x -> !x.words().equals(s.words()))
                .map(x -> percent(x.probability()) + " " + x.words())
                .toList();
        String text = (s.slip() ? "Slip of the work: " : "") + s.sentence() + "."
                + (slips.isEmpty() ? "" : " Slips that look the same: " + String.join("; ", slips) + ".")
                + (s.others().isEmpty() ? "" : " Elsewhere, looking the same: " + String.join("; ", s.others()) + ".");
        Block.Row row = Block.Row.of(percent(s.probability()), text);
        return s.slip() ? row.emphasised() : row;
    }

    private static String percent(double share) {
        return String.format(Locale.ROOT, "%.0f %%", 100 * share);
    }

    /** Readings still to take, with a place to write. */
    private Optional<Section> measure() {
        List<Block.Row> rows = new ArrayList<>();
        Set<String> cautions = new LinkedHashSet<>();
        Set<String> sources = new LinkedHashSet<>();
        for (Check c : in(State.MISSING)) {
            if (!METER.contains(c.kind())) continue;
            Proof.Limit l = c.limit().orElseThrow();
            cautions.add(c.caution());
            sources.add(c.source());
            rows.add(Block.Row.of(
                    "",
                    l.a() + " to " + l.b(),
                    String.join(", ", l.unplugged()),
                    l.aboutOhms()
                            .map(o -> String.format(Locale.ROOT, "%.3f ohm", o))
                            .orElse("over range"),
                    (l.atMost() ? "at most " : "at least ") + ohms(l.limitOhms()),
                    ""));
        }
        if (rows.isEmpty()) return Optional.empty();
        List<Block> blocks = new ArrayList<>();
        cautions.forEach(c -> blocks.add(new Block.Caution(c)));
        blocks.add(new Block.Table(
                "Ohms, leads zeroed; limits for wires at 20 °C, a warmer wire has 0.4 % more per kelvin",
                List.of(
                        Block.Column.tick("Done"),
                        Block.Column.text("Points"),
                        Block.Column.text("Plugs apart"),
                        Block.Column.number("About"),
                        Block.Column.number("Limit"),
                        Block.Column.blank("Read")),
                rows));
        blocks.add(Block.Paragraph.of("Limits: " + String.join(". ", sources) + "."));
        return Optional.of(new Section("To measure", blocks));
    }

    private static String ohms(double ohms) {
        return ohms >= 1e6
                ? String.format(Locale.ROOT, "%.0f Mohm", ohms / 1e6)
                : String.format(Locale.ROOT, "%.2f ohm", ohms);
    }

    private List<Block.Step> toDo() {
        return in(State.MISSING).stream()
                .filter(c -> !METER.contains(c.kind()))
                .map(c -> new Block.Step(
                        Phrase.of(capital(c.words()) + "." + (c.found().isEmpty() ? "" : " So far: " + c.found() + "."))
                                .from(c.lines()),
                        OptionalDouble.empty(),
                        List.of(),
                        c.caution().isEmpty() ? List.of() : List.of(capital(c.caution()) + "."),
                        Optional.empty()))
                .toList();
    }

    private Section passed() {
        Map<String, Set<String>> sources = new LinkedHashMap<>();
        for (Check c : in(State.PASSED))
            sources.computeIfAbsent(c.source(), k -> new LinkedHashSet<>())
                    .add(c.kind().word());
        return Section.of(
                "What was done and passed",
                new Block.Table(
                        "Checks that passed, with the lines of the case that say so",
                        List.of(Block.Column.text("Check"), Block.Column.text("Found")),
                        in(State.PASSED).stream()
                                .map(c -> Block.Row.of(
                                        Phrase.of(capital(c.words())),
                                        Phrase.of(c.found()).from(c.lines())))
                                .toList()),
                Block.Paragraph.of("Where limits and rules come from:"),
                new Block.Points(sources.entrySet().stream()
                        .map(e -> Phrase.of(capital(String.join(", ", e.getValue())) + ": " + e.getKey() + "."))
                        .toList()));
    }

    private static Block.Line line(Standing s) {
        return new Block.Line(s.n(), s.stamp().at().format(WHEN), s.fact().toString(), false);
    }

    static String capital(String text) {
        return text.isEmpty() ? text : Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }
}
