package loomcase.claim;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import loomcase.print.Block;
import loomcase.print.Phrase;
import loomcase.print.Section;
import loomcase.print.Wording;

/** Labour, parts and totals. */
final class BillSection {
    private final Packet.Bill bill;
    private final Wording words;
    private final Figures figures;
    private final FactWords facts;

    BillSection(Packet p, Wording words, Figures figures, FactWords facts) {
        this.bill = p.bill();
        this.words = words;
        this.figures = figures;
        this.facts = facts;
    }

    Section section() {
        List<Block> blocks = new ArrayList<>();
        if (!bill.labour().isEmpty()) blocks.add(labour());
        if (!bill.parts().isEmpty()) blocks.add(parts());
        blocks.add(Block.Details.of(Block.Detail.of(
                words.say("bill.both"), words.say("money", figures.plain(bill.total()), bill.currency()))));
        if (bill.open() > 0) blocks.add(Block.Paragraph.of(words.say("bill.open", Integer.toString(bill.open()))));
        blocks.add(Block.Paragraph.of(words.say("bill.note", figures.plain(bill.ratePerHour()), bill.currency())));
        return new Section(words.say("section.bill"), blocks);
    }

    /** The rows with their sum below. */
    private static List<Block.Row> summed(Stream<Block.Row> rows, String... sum) {
        return Stream.concat(rows, Stream.of(Block.Row.of(sum).emphasised())).toList();
    }

    private Block labour() {
        return new Block.Table(
                words.say("bill.labour-caption", bill.currency()),
                List.of(
                        Block.Column.text(words.say("column.kind")),
                        Block.Column.text(words.say("column.what")),
                        Block.Column.number(words.say("column.minutes")),
                        Block.Column.number(words.say("column.amount")),
                        Block.Column.text(words.say("column.time"))),
                summed(
                        bill.labour().stream()
                                .map(l -> new Block.Row(
                                        List.of(
                                                Phrase.of(words.say("labour-kind." + l.kind())),
                                                l.words(),
                                                Phrase.of(figures.minutes(l.minutes())),
                                                Phrase.of(figures.plain(l.amount())),
                                                Phrase.of(words.say(l.straightTime() ? "time.straight" : "time.set"))),
                                        false)),
                        words.say("bill.total"),
                        "",
                        figures.minutes(bill.labour().stream()
                                .map(Packet.LabourLine::minutes)
                                .reduce(BigDecimal.ZERO, BigDecimal::add)),
                        figures.plain(bill.labourTotal()),
                        ""));
    }

    private Block parts() {
        return new Block.Table(
                words.say("bill.parts-caption", bill.currency()),
                List.of(
                        Block.Column.text(words.say("column.part")),
                        Block.Column.text(words.say("column.role")),
                        Block.Column.text(words.say("column.where")),
                        Block.Column.number(words.say("column.quantity")),
                        Block.Column.number(words.say("column.each")),
                        Block.Column.number(words.say("column.amount")),
                        Block.Column.text(words.say("column.kept"))),
                summed(
                        bill.parts().stream()
                                .map(l -> new Block.Row(
                                        List.of(
                                                Phrase.of(facts.part(l.part())).from(l.line()),
                                                Phrase.of(facts.word(
                                                        "role.", l.part().role())),
                                                Phrase.of(l.part()
                                                        .spot()
                                                        .map(facts::place)
                                                        .orElse("")),
                                                Phrase.of(figures.plain(l.part().quantity())),
                                                Phrase.of(l.each()
                                                        .map(e -> figures.price(e)
                                                                + (l.fromCircuit()
                                                                        ? " " + words.say("bill.listed")
                                                                        : ""))
                                                        .orElse(words.say("not-said"))),
                                                Phrase.of(l.amount()
                                                        .map(figures::plain)
                                                        .orElse("")),
                                                Phrase.of(l.tag()
                                                        .map(t -> words.say("kept.tag", t))
                                                        .orElse(words.say("kept.no")))),
                                        false)),
                        words.say("bill.total"),
                        "",
                        "",
                        "",
                        "",
                        figures.plain(bill.partsTotal()),
                        ""));
    }
}
