package loomcase.claim;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
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
        blocks.add(Block.Details.of(
                total("bill.labour", bill.labourTotal()),
                total("bill.parts", bill.partsTotal()),
                total("bill.total", bill.total())));
        if (bill.open() > 0) blocks.add(Block.Paragraph.of(words.say("bill.open", Integer.toString(bill.open()))));
        blocks.add(Block.Paragraph.of(words.say("bill.note", figures.plain(bill.ratePerHour()), bill.currency())));
        return new Section(words.say("section.bill"), blocks);
    }

    private Block.Detail total(String key, BigDecimal amount) {
        return Block.Detail.of(words.say(key), words.say("money", figures.plain(amount), bill.currency()));
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
                bill.labour().stream()
                        .map(l -> new Block.Row(
                                List.of(
                                        Phrase.of(words.say("labour-kind." + l.kind())),
                                        l.words(),
                                        Phrase.of(figures.minutes(l.minutes())),
                                        Phrase.of(figures.plain(l.amount())),
                                        Phrase.of(words.say(l.straightTime() ? "time.straight" : "time.set"))),
                                false))
                        .toList());
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
                bill.parts().stream()
                        .map(l -> new Block.Row(
                                List.of(
                                        Phrase.of(facts.part(l.part())).from(l.line()),
                                        Phrase.of(facts.word("role.", l.part().role())),
                                        Phrase.of(l.part()
                                                .spot()
                                                .map(facts::place)
                                                .orElse("")),
                                        Phrase.of(figures.plain(l.part().quantity())),
                                        Phrase.of(l.each()
                                                .map(e -> figures.plain(e)
                                                        + (l.fromCircuit() ? " " + words.say("bill.listed") : ""))
                                                .orElse(words.say("not-said"))),
                                        Phrase.of(l.amount().map(figures::plain).orElse("")),
                                        Phrase.of(l.tag()
                                                .map(t -> words.say("kept.tag", t))
                                                .orElse(words.say("kept.no")))),
                                false))
                        .toList());
    }
}
