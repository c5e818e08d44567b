package loomcase.claim;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import loomcase.j1939.Code;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import loomcase.journal.Jumper;
import loomcase.journal.Setup;
import loomcase.journal.Spot;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Device;
import loomcase.model.Names;
import loomcase.policy.ClaimCase;
import loomcase.policy.RemedyFact;
import loomcase.print.Phrase;
import loomcase.print.Wording;

/** A line of a journal as one sentence of one language; nothing is added to what the line says. */
final class FactWords {
    private final Wording words;
    private final Figures figures;
    private final Circuit circuit;

    FactWords(Wording words, Figures figures, Circuit circuit) {
        this.words = words;
        this.figures = figures;
        this.circuit = circuit;
    }

    /** The place that failed as a sentence, and the second one where two did. */
    List<Phrase> failed(Packet.Choice choice) {
        return choice.spots().stream()
                .map(s -> words.say(s == choice.spot() ? "cause.place" : "cause.second-place", place(s)))
                .map(said -> Phrase.of(said).from(choice.line()))
                .toList();
    }

    /** What stands in a sentence of a rule or of the verdict: an option, alone or before its place, or a cause of damage. */
    String argument(String text) {
        String first = text.split(" ", 2)[0];
        if (RemedyFact.OPTIONS.contains(first) || first.equals(ClaimCase.TWO_REPAIRS))
            return words.say("option." + first) + text.substring(first.length());
        return ClaimCase.DAMAGE_CAUSES.contains(text) ? words.say("damage." + text) : text;
    }

    /** What a line says. */
    String say(Fact fact) {
        if (fact instanceof Fact.Opened f) return words.say("line.opened", f.complaint());
        if (fact instanceof Fact.Codes f) return words.say("line.codes", codes(f), lamps(f));
        if (fact instanceof Fact.Reading f) return words.say("line.reading", id(f), shown(f), setup(f.setup()));
        if (fact instanceof Fact.Watched f)
            return words.say(
                    "line.watched",
                    setup(f.setup()),
                    list(f.active().stream().map(FactWords::code).toList()));
        if (fact instanceof Fact.Moved f)
            return words.say("line.moved", word("action.", f.action()), place(f.spot()), moved(f), setup(f.setup()));
        if (fact instanceof Fact.Seen f)
            return words.say("line.seen", place(f.spot()), word("finding.", f.finding()), after(f.note()));
        if (fact instanceof Fact.Swapped f)
            return words.say(
                    "line.swapped", place(f.part()), place(f.with()), word("outcome.", f.outcome()), after(f.note()));
        if (fact instanceof Fact.Gauged f)
            return words.say("line.gauged", place(f.part()), condition(f), after(f.note()));
        if (fact instanceof Fact.OpenedAccess f) return words.say("line.opened-access", step(f.step()));
        if (fact instanceof Fact.ClosedAccess f) return words.say("line.closed-access", step(f.step()));
        if (fact instanceof Fact.Refused f) return words.say("line.refused", f.test(), f.reason());
        if (fact instanceof Fact.Work f) return work(f);
        if (fact instanceof Fact.Note f) return words.say("line.note", f.text());
        if (fact instanceof Fact.Correction f)
            return words.say("line.correction", Integer.toString(f.corrects()), say(f.replacement()));
        return clerk(fact);
    }

    /** The circuit file's words for a condition of the engine. */
    private String condition(Fact.Gauged f) {
        return circuit.devices()
                .get(f.part().place().id())
                .condition(f.condition())
                .map(Device.Condition::label)
                .orElseGet(() -> words.say("gauged.healthy"));
    }

    private String clerk(Fact fact) {
        if (fact instanceof ClaimFact.Photo f)
            return words.say("line.photo", f.file(), word("view.", f.view()), at(f.spot()), f.shows());
        if (fact instanceof ClaimFact.Kept f) return words.say("line.kept", f.part(), f.tag(), f.where());
        if (fact instanceof ClaimFact.Part f)
            return words.say("line.part", figures.plain(f.quantity()), part(f), word("role.", f.role()), at(f.spot()));
        if (fact instanceof ClaimFact.Chose f)
            return words.say(
                    "line.chose",
                    word("option.", f.option()),
                    place(f.spot())
                            + f.also()
                                    .map(a ->
                                            words.say("line.chose-also", word("option.", a.option()), place(a.spot())))
                                    .orElse(""),
                    tail(f.reason()));
        if (fact instanceof ClaimFact.Approved f) return words.say("line.approved", f.what(), approval(f));
        throw new IllegalStateException("no words for a fact of kind " + fact.kind());
    }

    String work(Fact.Work f) {
        String time = f.minutes().isPresent()
                ? words.say("line.minutes", figures.given(f.minutes().getAsDouble()))
                : "";
        return words.say("line.work", word("deed.", f.deed()), at(f.spot()), tail(f.note()), time);
    }

    String part(ClaimFact.Part f) {
        return f.number().map(n -> words.say("part.number", f.name(), n)).orElse(f.name());
    }

    String approval(ClaimFact.Approved f) {
        if (f.approver().isEmpty()) return words.say("approval.none");
        return words.say(
                "approval.given",
                f.approver().get(),
                f.number().orElse(words.say("not-said")),
                f.date().map(Object::toString).orElse(words.say("not-said")));
    }

    /** What was measured, the same before and after. */
    String id(Fact.Reading r) {
        return words.say("reading.id", word("test.", r.test()), point(r.a()), point(r.b()));
    }

    /** A point by its name; the chassis has none of its own in the circuit file. */
    private String point(String name) {
        return name.equals(Names.CHASSIS) ? words.say("point.chassis") : name;
    }

    String shown(Fact.Reading r) {
        return r.shown().value().isEmpty()
                ? words.say("shown.open")
                : figures.shown(r.shown().toString());
    }

    private String moved(Fact.Moved f) {
        return words.say(f.response() ? "moved.response" : "moved.none") + after(f.what());
    }

    String codes(Fact.Codes f) {
        if (f.codes().isEmpty()) return words.say("codes.none");
        return f.codes().stream().map(this::code).collect(Collectors.joining(", "));
    }

    private String code(Fact.ReadCode c) {
        String count =
                c.count().isPresent() ? words.say("codes.count", c.count().getAsInt()) : words.say("codes.no-count");
        return words.say("codes.one", code(c.code()), word("state.", c.state()), count);
    }

    static String code(Code code) {
        return "SPN " + code.spn() + " FMI " + code.fmi();
    }

    String lamps(Fact.Codes f) {
        if (f.lamps().isEmpty()) return words.say("lamps.not-said");
        Lamps l = f.lamps().get();
        List<String> lit = new ArrayList<>();
        lit(lit, "lamp.malfunction", l.malfunction());
        lit(lit, "lamp.red-stop", l.redStop());
        lit(lit, "lamp.amber-warning", l.amberWarning());
        lit(lit, "lamp.protect", l.protect());
        return words.say("lamps.lit", list(lit));
    }

    private void lit(List<String> out, String key, Lamp lamp) {
        if (lamp.lit()) out.add(words.say(key));
    }

    String setup(Setup s) {
        List<String> out = new ArrayList<>();
        out.add(s.operatingPoint()
                .map(o -> words.say("setup.at", o + s.phase().map(p -> "/" + p).orElse("")))
                .orElseGet(() -> words.say("setup.key-off")));
        if (!s.unplugged().isEmpty()) out.add(words.say("setup.unplugged", list(s.unplugged())));
        for (Jumper j : s.jumpers())
            out.add(words.say("setup.jumper", point(j.from()), point(j.to()), figures.given(j.ohms())));
        if (s.wireCelsius().isPresent())
            out.add(words.say("setup.celsius", figures.given(s.wireCelsius().getAsDouble())));
        return String.join(", ", out);
    }

    String list(List<String> items) {
        return items.isEmpty() ? words.say("none") : String.join(", ", items);
    }

    String place(Spot spot) {
        String id = spot.place().id();
        return spot.rubPoint()
                .map(r -> words.say("place.rub-point", r, id, label(id, r)))
                .orElseGet(() -> words.say("place." + spot.place().kind().word(), id));
    }

    private String label(String branch, String rubPoint) {
        return circuit.branches().get(branch).rubPoints().stream()
                .filter(r -> r.id().equals(rubPoint))
                .map(Branch.RubPoint::label)
                .findFirst()
                .orElse(rubPoint);
    }

    private String at(java.util.Optional<Spot> spot) {
        return spot.map(s -> " " + words.say("at", place(s))).orElse("");
    }

    String step(String id) {
        return circuit.access().containsKey(id) ? circuit.access().get(id).label() : id;
    }

    /** A note behind a finding, which has a colon before it already. */
    private static String after(String note) {
        return note.isBlank() ? "" : "; " + note;
    }

    static String tail(String note) {
        return note.isBlank() ? "" : ": " + note;
    }

    /** The word of a constant; its family of keys, a dot at the end, is named like the field of the journal. */
    String word(String family, Enum<?> constant) {
        return words.say(family + constant.name().toLowerCase(Locale.ROOT).replace('_', '-'));
    }
}
