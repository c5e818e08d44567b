package loomcase.claim;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import loomcase.casework.OpenCase;
import loomcase.draw.HarnessSvg;
import loomcase.draw.Suspicion;
import loomcase.journal.Spot;
import loomcase.model.PlaceId;
import loomcase.policy.ClaimGap;
import loomcase.print.Block;
import loomcase.print.Document;
import loomcase.print.Phrase;
import loomcase.print.Picture;
import loomcase.print.Section;
import loomcase.print.Wording;

/** A claim as a packet to print: what is missing on the first page, then the claim, then every line of the case. */
public final class ClaimDocument {
    private static final long MOST_PICTURE_BYTES = 20L << 20;

    private final OpenCase open;
    private final Packet p;
    private final Wording words;
    private final Figures figures;
    private final FactWords facts;

    private ClaimDocument(OpenCase open, Packet packet, Locale language) {
        this.open = open;
        this.p = packet;
        this.words = Wording.of(ClaimDocument.class, language);
        this.figures = new Figures(words.language());
        this.facts = new FactWords(words, figures, open.circuit());
    }

    /**
     * The packet to print.
     *
     * @param open the case that the packet was made of
     * @param packet the claim, made in the same language
     * @param language as given to {@link PacketMaker#of}
     */
    public static Document of(OpenCase open, Packet packet, Locale language) {
        return new ClaimDocument(open, packet, language).document();
    }

    private Document document() {
        List<Section> sections = new ArrayList<>();
        sections.add(completeness());
        sections.add(story());
        sections.add(codes());
        sections.add(readings());
        sections.add(place());
        if (!p.photos().isEmpty()) sections.add(photos());
        sections.add(choice());
        sections.add(new BillSection(p, words, figures, facts).section());
        sections.add(kept());
        sections.add(who());
        sections.add(evidence());
        return new Document(
                words.say("title"),
                words.say("subtitle", p.about().caseFile(), p.about().circuitTitle()),
                words.language(),
                p.about().to().toLocalDate(),
                head(),
                sections,
                words.say(
                        "footer", p.about().caseFile(), p.about().digest().hex().substring(0, 12)));
    }

    private List<Block.Detail> head() {
        var opened = p.about().opened();
        var machine = opened.machine();
        return List.of(
                Block.Detail.blank(words.say("head.claim-number")),
                detail("head.unit", opened.unit().orElse("")),
                detail("head.serial", machine.serial().orElse("")),
                detail(
                        "head.in-service",
                        machine.inService().map(Object::toString).orElse("")),
                detail("head.distance", machine.distance().map(figures::shown).orElse("")),
                detail(
                        "head.hours",
                        opened.hours().isPresent()
                                ? figures.rounded1(opened.hours().getAsDouble())
                                : ""),
                detail("head.circuit", opened.circuit().id()),
                detail("head.origin", p.about().origin()),
                detail(
                        "head.total",
                        words.say(
                                "money",
                                figures.plain(p.bill().total()),
                                p.bill().currency())));
    }

    private Block.Detail detail(String key, String value) {
        return Block.Detail.of(words.say(key), value);
    }

    private Section completeness() {
        List<Block> blocks = new ArrayList<>();
        blocks.add(Block.Paragraph.of(Phrase.strong(words.say(p.canBeSent() ? "answer.send" : "answer.hold"))));
        if (!p.contradictions().isEmpty()) {
            blocks.add(Block.Paragraph.of(Phrase.strong(words.say("against"))));
            blocks.add(new Block.Points(p.contradictions()));
        }
        p.proven()
                .ifPresent(x -> blocks.add(Block.Paragraph.of(
                        words.say(x.passed() == x.all() ? "proven.all" : "proven.some", x.passed(), x.all()))));
        long away = p.photos().stream()
                .filter(x -> x.state() == Packet.PhotoState.MISSING)
                .count();
        if (away > 0) blocks.add(Block.Paragraph.of(words.say("photos.away", away)));
        List<Block.Row> rows = p.outcome().gaps().stream().map(this::gap).toList();
        if (rows.isEmpty()) blocks.add(Block.Paragraph.of(words.say("gaps.none")));
        else
            blocks.add(new Block.Table(
                    words.say("gaps"),
                    List.of(
                            Block.Column.text(words.say("gaps.severity")),
                            Block.Column.text(words.say("gaps.field")),
                            Block.Column.text(words.say("gaps.text")),
                            Block.Column.text(words.say("gaps.rule"))),
                    rows));
        if (!words.language().equals(Locale.ENGLISH)) blocks.add(Block.Paragraph.of(words.say("note.language")));
        if (p.outcome().shopPolicyDiffers()) blocks.add(Block.Paragraph.of(words.say("gaps.shop")));
        return new Section(words.say("section.completeness"), blocks);
    }

    private Block.Row gap(ClaimGap gap) {
        Block.Row row = Block.Row.of(
                words.say("severity." + gap.severity().name().toLowerCase(Locale.ROOT)),
                words.say("field." + gap.field()),
                gap.text(),
                gap.rule());
        return gap.severity() == ClaimGap.Severity.BLOCKS ? row.emphasised() : row;
    }

    private Section story() {
        return Section.of(
                words.say("section.story"),
                Block.Paragraph.of(Phrase.strong(words.say("complaint"))),
                told(p.complaint()),
                Block.Paragraph.of(Phrase.strong(words.say("cause"))),
                told(p.cause()),
                Block.Paragraph.of(Phrase.strong(words.say("correction"))),
                told(p.correction()));
    }

    private Block told(List<Phrase> phrases) {
        return phrases.isEmpty() ? Block.Paragraph.of(words.say("journal-silent")) : new Block.Points(phrases);
    }

    private Section codes() {
        List<Block.Row> rows = new ArrayList<>();
        for (Packet.CodesLine c : p.codes()) {
            String stage = words.say("stage." + c.stage().word());
            if (c.codes().codes().isEmpty())
                rows.add(new Block.Row(
                        List.of(
                                Phrase.of(stage),
                                Phrase.of(words.say("codes.none")).from(c.line()),
                                Phrase.of(""),
                                Phrase.of(""),
                                Phrase.of(Figures.when(c.at()))),
                        false));
            for (var code : c.codes().codes())
                rows.add(new Block.Row(
                        List.of(
                                Phrase.of(stage),
                                Phrase.of(FactWords.code(code.code())).from(c.line()),
                                Phrase.of(facts.word("state.", code.state())),
                                Phrase.of(
                                        code.count().isPresent()
                                                ? Integer.toString(code.count().getAsInt())
                                                : words.say("not-said")),
                                Phrase.of(Figures.when(c.at()))),
                        false));
        }
        if (rows.isEmpty()) return Section.of(words.say("section.codes"), silent());
        return Section.of(
                words.say("section.codes"),
                new Block.Table(
                        words.say("codes.caption"),
                        List.of(
                                Block.Column.text(words.say("column.stage")),
                                Block.Column.text(words.say("column.code")),
                                Block.Column.text(words.say("column.state")),
                                Block.Column.number(words.say("column.count")),
                                Block.Column.text(words.say("column.when"))),
                        rows));
    }

    private Block silent() {
        return Block.Paragraph.of(words.say("journal-silent"));
    }

    private Section readings() {
        if (p.readings().isEmpty()) return Section.of(words.say("section.readings"), silent());
        List<Block.Row> rows = p.readings().stream().map(this::reading).toList();
        return Section.of(
                words.say("section.readings"),
                new Block.Table(
                        words.say("readings.caption"),
                        List.of(
                                Block.Column.text(words.say("column.stage")),
                                Block.Column.text(words.say("column.reading")),
                                Block.Column.number(words.say("column.shown")),
                                Block.Column.text(words.say("column.limit")),
                                Block.Column.text(words.say("column.judged")),
                                Block.Column.text(words.say("column.setup")),
                                Block.Column.text(words.say("column.meter"))),
                        rows),
                Block.Paragraph.of(words.say("readings.note")));
    }

    private Block.Row reading(Packet.ReadingLine r) {
        var meter = r.reading().meter();
        String zero = meter.leadZeroOhms().isPresent()
                ? words.say("meter.zero", figures.given(meter.leadZeroOhms().getAsDouble()))
                : words.say("meter.no-zero");
        String judged = r.limit().isEmpty() ? "not-judged" : r.out() ? "out" : "in";
        return new Block.Row(
                List.of(
                        Phrase.of(words.say("stage." + r.stage().word())),
                        Phrase.of(r.id()).from(r.line()),
                        Phrase.of(facts.shown(r.reading())),
                        Phrase.of(r.limit().map(Packet.Limit::words).orElse(words.say("limit.none"))),
                        Phrase.of(words.say("judged." + judged)),
                        Phrase.of(facts.setup(r.reading().setup())),
                        Phrase.of((meter.name().isEmpty() ? words.say("not-said") : meter.name()) + ", " + zero)),
                r.out());
    }

    private Section place() {
        if (p.choice().isEmpty()) return Section.of(words.say("section.place"), silent());
        List<Spot> spots = p.choice().get().spots();
        String where = spots.stream().map(facts::place).collect(Collectors.joining("; "));
        List<Block> blocks = new ArrayList<>();
        facts.failed(p.choice().get()).forEach(said -> blocks.add(Block.Paragraph.of(said)));
        List<Phrase> causal = p.bill().parts().stream()
                .filter(l -> l.part().role() == loomcase.journal.ClaimFact.Role.CAUSAL)
                .map(l ->
                        Phrase.of(words.say("place.part", facts.part(l.part()))).from(l.line()))
                .toList();
        if (!causal.isEmpty()) blocks.add(new Block.Points(causal));
        Map<PlaceId, Double> shares = new LinkedHashMap<>();
        List<Suspicion.Mark> marks = new ArrayList<>();
        for (Spot s : spots) {
            shares.put(s.place(), 1.0);
            marks.add(new Suspicion.Mark(marks.size() + 1, s.place(), facts.place(s)));
        }
        Suspicion mark = new Suspicion(shares, marks, List.of());
        blocks.add(new Block.Figure(
                HarnessSvg.draw(open.circuit(), open.bench().layout(), mark),
                words.say("drawing.alt", p.about().circuitTitle(), where),
                words.say("drawing.caption", where)));
        return new Section(words.say("section.place"), blocks);
    }

    private Section photos() {
        List<Block> blocks = new ArrayList<>();
        for (Packet.PhotoLine l : p.photos()) {
            String state = words.say("photo." + l.state().word());
            String place = l.photo().spot().map(facts::place).orElse(words.say("photo.no-place"));
            Phrase about = Phrase.of(words.say(
                            "photo.words", facts.word("view.", l.photo().view()), place, state))
                    .from(l.line());
            blocks.add(new Block.Photo(
                    l.photo().file(), l.photo().digest().hex(), l.photo().shows(), picture(l), List.of(about)));
        }
        return new Section(words.say("section.photos"), blocks);
    }

    /** The photo itself, where it is the one that was recorded and a page can show it. */
    private Optional<Picture> picture(Packet.PhotoLine l) {
        if (l.state() != Packet.PhotoState.SAME) return Optional.empty();
        Path file = PacketMaker.photoFile(open.file(), l.photo());
        try {
            if (Files.size(file) > MOST_PICTURE_BYTES) return Optional.empty();
            byte[] bytes = Files.readAllBytes(file);
            return Picture.known(bytes) ? Optional.of(new Picture(bytes)) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    private Section choice() {
        List<Block> blocks = new ArrayList<>();
        if (p.choice().isEmpty()) blocks.add(silent());
        p.choice()
                .ifPresent(c -> blocks.add(
                        Block.Paragraph.of(Phrase.of(facts.say(c.chose())).from(c.line()))));
        if (p.reasoning().isEmpty()) blocks.add(Block.Paragraph.of(words.say("reasoning.none")));
        p.reasoning().ifPresent(r -> {
            blocks.add(new Block.Points(r.words().stream().map(Phrase::of).toList()));
            blocks.add(costs(r));
            blocks.add(Block.Paragraph.of(words.say("costs.note")));
            if (!r.breakEvens().isEmpty())
                blocks.add(
                        new Block.Points(r.breakEvens().stream().map(Phrase::of).toList()));
        });
        return new Section(words.say("section.choice"), blocks);
    }

    private Block costs(Packet.Reasoning r) {
        String chosen = p.choice().map(Packet.Choice::option).orElse("");
        return new Block.Table(
                words.say("costs.caption", p.bill().currency()),
                List.of(
                        Block.Column.text(words.say("column.option")),
                        Block.Column.text(words.say("column.what")),
                        Block.Column.number(words.say("column.now")),
                        Block.Column.number(words.say("column.expected")),
                        Block.Column.text(words.say("column.rules"))),
                r.costs().stream()
                        .map(c -> {
                            Block.Row row = Block.Row.of(
                                    words.say("option." + c.option()),
                                    c.words(),
                                    figures.plain(c.now()),
                                    figures.plain(c.expected()),
                                    (c.forbidden() ? words.say("forbidden") + " " : "") + String.join(" ", c.rules()));
                            return c.option().equals(chosen) ? row.emphasised() : row;
                        })
                        .toList());
    }

    private Section kept() {
        List<Phrase> points = new ArrayList<>();
        p.kept().forEach(k -> points.add(Phrase.of(facts.say(k.kept())).from(k.line())));
        p.approvals().forEach(a -> points.add(Phrase.of(facts.say(a.approved())).from(a.line())));
        return Section.of(words.say("section.kept"), told(points));
    }

    private Section who() {
        return Section.of(
                words.say("section.who"),
                Block.Details.of(
                        detail("who.technician", p.about().technician().orElse("")),
                        detail("who.people", String.join(", ", p.about().people())),
                        detail("who.from", Figures.when(p.about().from())),
                        detail("who.to", Figures.when(p.about().to())),
                        detail("who.clocked", figures.rounded1(p.about().clockedMinutes())),
                        Block.Detail.blank(words.say("who.signature"))),
                Block.Paragraph.of(words.say(
                        "chain",
                        Integer.toString(p.about().lines()),
                        p.about().digest().hex())));
    }

    private Section evidence() {
        return Section.of(
                words.say("section.evidence"),
                new Block.Evidence(p.evidence().stream()
                        .map(e -> new Block.Line(
                                e.line(),
                                Figures.when(e.at()),
                                words.say("evidence.by", e.by(), e.words()),
                                e.withdrawn()))
                        .toList()));
    }
}
