package loomcase.claim;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import loomcase.journal.Standing;
import loomcase.model.Finding;
import loomcase.print.Phrase;
import loomcase.print.Wording;

/** Complaint, cause and correction: one sentence for each line that speaks of it, and none without a line. */
final class Story {
    private final Timeline time;
    private final Wording words;
    private final FactWords facts;
    private final List<Packet.ReadingLine> readings;

    Story(Timeline time, Wording words, FactWords facts, List<Packet.ReadingLine> readings) {
        this.time = time;
        this.words = words;
        this.facts = facts;
        this.readings = readings;
    }

    /** What the customer says, hours and distance then, lamps and codes at first sight. */
    List<Phrase> complaint() {
        List<Phrase> out = new ArrayList<>();
        Timeline.At<Fact.Opened> opened = time.all(Fact.Opened.class).get(0);
        out.add(Phrase.of(words.say("complaint.words", opened.fact().complaint()))
                .from(time.complaintLine()));
        time.all(Fact.Codes.class, Packet.Stage.BEFORE).stream()
                .findFirst()
                .ifPresent(c -> out.add(codes("complaint.shown", c)));
        return out;
    }

    private Phrase codes(String key, Timeline.At<Fact.Codes> c) {
        String said = words.say(
                key,
                facts.codes(c.fact()),
                facts.lamps(c.fact()),
                facts.list(c.fact().operatingPoints()));
        return Phrase.of(said).from(c.line());
    }

    /** What failed and where, then each finding that shows it; empty when nobody wrote down what failed. */
    List<Phrase> cause(Optional<Packet.Choice> choice) {
        List<Phrase> out = new ArrayList<>();
        choice.ifPresent(c -> out.addAll(facts.failed(c)));
        choice.flatMap(c -> c.chose().damage())
                .ifPresent(d -> out.add(Phrase.of(words.say("cause.damage", facts.word("damage.", d)))
                        .from(choice.get().line())));
        for (Standing s : time.lines()) if (time.stage(s.n()) == Packet.Stage.BEFORE) found(s).ifPresent(out::add);
        return out;
    }

    private Optional<Phrase> found(Standing s) {
        Fact f = s.fact();
        boolean tells = f instanceof Fact.Seen seen && seen.finding() != Finding.CLEAN
                || f instanceof Fact.Watched
                || f instanceof Fact.Moved m && m.response()
                || f instanceof Fact.Gauged
                || f instanceof Fact.Swapped;
        if (tells) return Optional.of(Phrase.of(sentence(facts.say(f))).from(s.n()));
        return readings.stream()
                .filter(r -> r.line() == s.n() && (r.out() || r.limit().isEmpty()))
                .findFirst()
                .map(this::read);
    }

    private Phrase read(Packet.ReadingLine r) {
        String limit = r.limit().map(Packet.Limit::words).orElse(words.say("limit.none"));
        return Phrase.of(words.say("read", r.id(), facts.shown(r.reading()), limit))
                .from(r.line());
    }

    /** Work, parts fitted, cleared codes, then the proof: readings and codes after the last repair. */
    List<Phrase> correction() {
        List<Phrase> out = new ArrayList<>();
        OptionalInt first = time.firstRepair();
        for (Standing s : time.lines()) {
            if (first.isEmpty() || s.n() < first.getAsInt()) continue;
            if (s.fact() instanceof Fact.Work w)
                out.add(Phrase.of(sentence(facts.work(w))).from(s.n()));
            if (s.fact() instanceof ClaimFact.Part p)
                out.add(Phrase.of(words.say("correction.part", facts.part(p), facts.word("role.", p.role())))
                        .from(s.n()));
        }
        readings.stream().filter(r -> r.stage() == Packet.Stage.AFTER).forEach(r -> out.add(read(r)));
        time.all(Fact.Codes.class, Packet.Stage.AFTER).forEach(c -> out.add(codes("correction.codes", c)));
        return out;
    }

    /** The text with a capital before it and a full stop behind it. */
    static String sentence(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1) + (text.endsWith(".") ? "" : ".");
    }
}
