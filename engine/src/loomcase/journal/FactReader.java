package loomcase.journal;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.Function;
import loomcase.InputProblem;
import loomcase.j1939.Code;
import loomcase.j1939.Dtc;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.model.Finding;
import loomcase.model.PlaceId;
import loomcase.model.read.Cursor;
import loomcase.model.read.Json;

/**
 * A line into an entry, or an object into a fact, strictly: fields, types and ranges as {@code circuits/case.schema.json} says, each complaint with
 * file, line and field.
 */
public final class FactReader {
    /** Source of codes that a person typed. */
    static final String TYPED = "typed";

    private static final Map<String, Function<Cursor, Fact>> KINDS = Map.ofEntries(
            Map.entry("opened", FactReader::opened),
            Map.entry("codes", FactReader::codes),
            Map.entry("reading", FactReader::reading),
            Map.entry("watched", FactReader::watched),
            Map.entry("moved", FactReader::moved),
            Map.entry("seen", FactReader::seen),
            Map.entry("swapped", FactReader::swapped),
            Map.entry("gauged", c -> new Fact.Gauged(spot(c, "part"), c.id("condition"), note(c, "note"))),
            Map.entry("opened-access", c -> new Fact.OpenedAccess(c.id("step"))),
            Map.entry("closed-access", c -> new Fact.ClosedAccess(c.id("step"))),
            Map.entry("refused", c -> new Fact.Refused(c.id("test"), c.id("reason"))),
            Map.entry("work", FactReader::work),
            Map.entry("photo", FactReader::photo),
            Map.entry("kept", c -> new ClaimFact.Kept(c.id("part"), c.id("tag"), c.id("where"))),
            Map.entry("part", FactReader::part),
            Map.entry("chose", FactReader::chose),
            Map.entry("approved", FactReader::approved),
            Map.entry("correction", FactReader::correction),
            Map.entry("note", c -> new Fact.Note(c.id("text"))));

    /** Kinds in the order of the chapter, for messages. */
    private static final String KNOWN = "opened, codes, reading, watched, moved, seen, swapped, gauged, opened-access,"
            + " closed-access, refused, work, photo, kept, part, chose, approved, correction, note";

    private FactReader() {}

    /**
     * Reads one line.
     *
     * @throws InputProblem with file, line and field
     */
    static Entry entry(Path file, int line, String text) {
        Cursor c = Cursor.of(file, Json.ofLine(file, line, text));
        Entry entry = checked(c, "n", () -> {
            Entry.Stamp stamp = new Entry.Stamp(
                    time(c), c.id("by"), c.has("confirmed") ? Optional.of(c.id("confirmed")) : Optional.empty());
            return new Entry(c.whole("n", 1, 999_999_999), stamp, fact(c), digest(c, "previous"), digest(c, "digest"));
        });
        c.done();
        return entry;
    }

    /**
     * The fact of an object that has a kind; fields of an entry around it are left to the caller.
     *
     * @throws InputProblem with file, line and field
     */
    public static Fact fact(Cursor c) {
        String kind = c.text("kind");
        Function<Cursor, Fact> reader = KINDS.get(kind);
        if (reader == null) throw c.problem("kind", "'" + kind + "' is not one of " + KNOWN);
        return checked(c, "kind", () -> reader.apply(c));
    }

    /** A value's own complaint, put at a field of this object. */
    private static <T> T checked(Cursor c, String field, java.util.function.Supplier<T> make) {
        try {
            return make.get();
        } catch (IllegalArgumentException e) {
            throw c.problem(field, e.getMessage());
        }
    }

    private static <T> T inside(Cursor c, String field, Function<Cursor, T> read) {
        Cursor inner = c.object(field);
        T value = checked(c, field, () -> read.apply(inner));
        inner.done();
        return value;
    }

    private static <T> List<T> each(Cursor c, String field, Function<Cursor, T> read) {
        List<T> out = new ArrayList<>();
        for (Cursor item : c.objects(field)) {
            out.add(checked(c, field, () -> read.apply(item)));
            item.done();
        }
        return out;
    }

    private static OffsetDateTime time(Cursor c) {
        String text = c.text("at");
        try {
            if (text.matches("[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(Z|[+-][0-9]{2}:[0-9]{2})"))
                return OffsetDateTime.parse(text);
        } catch (DateTimeException e) {
            throw c.problem("at", "'" + text + "' is no time: " + e.getMessage());
        }
        throw c.problem("at", "'" + text + "' is no time with offset, such as 2024-05-01T10:20:30+02:00");
    }

    private static Digest digest(Cursor c, String field) {
        return checked(c, field, () -> new Digest(c.text(field)));
    }

    private static Fact opened(Cursor c) {
        Fact.CircuitFile circuit =
                inside(c, "circuit", i -> new Fact.CircuitFile(i.id("file"), i.id("id"), digest(i, "digest")));
        String complaint = c.id("complaint");
        OfMachine machine = machine(c);
        return new Fact.Opened(circuit, complaint, machine.unit(), machine.hours(), machine.more());
    }

    /**
     * What an opening says of the machine.
     *
     * @param unit its id in the fleet, empty when not said
     * @param hours engine hours, empty when not said
     * @param more what claims need besides
     */
    public record OfMachine(Optional<String> unit, OptionalDouble hours, Machine more) {}

    /**
     * The fields of an opening that are about the machine; each may be absent.
     *
     * @throws InputProblem with file, line and field
     */
    public static OfMachine machine(Cursor c) {
        return new OfMachine(
                maybeId(c, "unit"),
                maybe(c, "hours", 0, Fact.Opened.MOST_HOURS),
                new Machine(maybeId(c, "serial"), maybeDate(c, "inService"), maybeId(c, "distance")));
    }

    private static Optional<LocalDate> maybeDate(Cursor c, String field) {
        if (!c.has(field)) return Optional.empty();
        String text = c.text(field);
        try {
            if (text.matches("(19|20)[0-9]{2}-[0-9]{2}-[0-9]{2}")) return Optional.of(LocalDate.parse(text));
        } catch (DateTimeException e) {
            throw c.problem(field, "'" + text + "' is no day of the calendar");
        }
        throw c.problem(field, "'" + text + "' is no date such as 2024-05-01");
    }

    private static Optional<String> maybeId(Cursor c, String field) {
        return c.has(field) ? Optional.of(c.id(field)) : Optional.empty();
    }

    private static OptionalDouble maybe(Cursor c, String field, double least, double most) {
        return c.has(field) ? OptionalDouble.of(c.number(field, least, most)) : OptionalDouble.empty();
    }

    /** A list that must be there, empty or not. */
    private static void need(Cursor c, String field) {
        if (!c.has(field)) throw c.problem(field, "is missing");
    }

    private static Code code(Cursor c) {
        return new Code(c.whole("spn", 0, Code.MAX_SPN), c.whole("fmi", 0, Code.MAX_FMI));
    }

    private static Fact codes(Cursor c) {
        need(c, "codes");
        List<Fact.ReadCode> codes = each(
                c,
                "codes",
                i -> new Fact.ReadCode(
                        code(i),
                        i.has("count") ? OptionalInt.of(i.whole("count", 0, Dtc.MAX_COUNT)) : OptionalInt.empty(),
                        i.word("state", Fact.State.class)));
        List<String> points = c.someTexts("operatingPoints");
        return new Fact.Codes(
                codes,
                points,
                source(c),
                c.has("lamps") ? Optional.of(inside(c, "lamps", FactReader::lamps)) : Optional.empty());
    }

    private static Optional<Fact.LogFile> source(Cursor c) {
        if (!c.isText("source"))
            return Optional.of(inside(c, "source", i -> new Fact.LogFile(i.id("log"), digest(i, "digest"))));
        if (c.text("source").equals(TYPED)) return Optional.empty();
        throw c.problem("source", "'" + c.text("source") + "' is neither '" + TYPED + "' nor an object with the log");
    }

    private static Lamps lamps(Cursor c) {
        return new Lamps(lamp(c, "protect"), lamp(c, "amberWarning"), lamp(c, "redStop"), lamp(c, "malfunction"));
    }

    private static Lamp lamp(Cursor c, String field) {
        return inside(c, field, i -> new Lamp(i.word("state", Lamp.State.class), i.word("flash", Lamp.Flash.class)));
    }

    private static Fact reading(Cursor c) {
        return new Fact.Reading(
                c.word("test", Fact.Test.class),
                c.id("a"),
                c.id("b"),
                shown(c),
                setup(c),
                c.has("meter") ? inside(c, "meter", FactReader::meter) : Meter.NOT_SAID);
    }

    private static Shown shown(Cursor c) {
        if (c.isText("value")) {
            if (c.text("value").equals(Shown.OPEN)) return new Shown.OverRange();
            throw c.problem("value", "'" + c.text("value") + "' is neither a number nor '" + Shown.OPEN + "'");
        }
        String sign = c.text("unit");
        Shown.Unit unit = Shown.Unit.of(sign)
                .orElseThrow(() -> c.problem("unit", "'" + sign + "' is not one of mV, V, mohm, ohm, kohm, Mohm"));
        return checked(c, "value", () -> new Shown.Number(c.decimal("value", -999_999_999, 999_999_999), unit));
    }

    private static Meter meter(Cursor c) {
        return new Meter(
                c.has("name") ? c.id("name") : "",
                maybe(c, "inputOhms", Meter.LEAST_INPUT_OHMS, Meter.MOST_INPUT_OHMS),
                maybe(c, "leadZeroOhms", 0, Meter.MOST_LEAD_OHMS));
    }

    private static Setup setup(Cursor c) {
        return inside(c, "setup", i -> {
            String point = i.id("operatingPoint");
            return new Setup(
                    point.equals(Setup.KEY_OFF) ? Optional.empty() : Optional.of(point),
                    maybeId(i, "phase"),
                    i.texts("unplugged"),
                    each(
                            i,
                            "jumpers",
                            j -> new Jumper(j.id("from"), j.id("to"), j.number("ohms", 0, Jumper.MOST_OHMS))),
                    maybe(i, "wireCelsius", Setup.LEAST_CELSIUS, Setup.MOST_CELSIUS));
        });
    }

    private static Fact watched(Cursor c) {
        need(c, "active");
        return new Fact.Watched(c.word("method", Fact.Method.class), setup(c), each(c, "active", FactReader::code));
    }

    private static Fact moved(Cursor c) {
        need(c, "response");
        return new Fact.Moved(
                c.word("action", Fact.Action.class),
                spot(c, "place"),
                c.flag("response", false),
                note(c, "what"),
                setup(c));
    }

    private static Fact seen(Cursor c) {
        return new Fact.Seen(spot(c, "place"), c.word("finding", Finding.class), note(c, "note"));
    }

    private static Fact swapped(Cursor c) {
        return new Fact.Swapped(spot(c, "part"), spot(c, "with"), c.word("codes", Fact.Outcome.class), note(c, "note"));
    }

    private static Fact work(Cursor c) {
        return new Fact.Work(
                c.word("what", Fact.Deed.class),
                maybeSpot(c),
                note(c, "note"),
                maybe(c, "minutes", 0, Fact.Work.MOST_MINUTES));
    }

    private static Optional<Spot> maybeSpot(Cursor c) {
        return c.has("place") ? Optional.of(spot(c, "place")) : Optional.empty();
    }

    private static Fact photo(Cursor c) {
        return new ClaimFact.Photo(
                c.id("file"),
                digest(c, "fileDigest"),
                c.word("view", ClaimFact.View.class),
                maybeSpot(c),
                c.id("shows"));
    }

    private static Fact part(Cursor c) {
        return new ClaimFact.Part(
                c.id("name"),
                maybeId(c, "number"),
                c.decimal("quantity", 0, ClaimFact.MOST.doubleValue()),
                c.has("price")
                        ? Optional.of(c.decimal("price", 0, ClaimFact.MOST.doubleValue()))
                        : Optional.<BigDecimal>empty(),
                c.word("role", ClaimFact.Role.class),
                c.word("sort", ClaimFact.Sort.class),
                maybeSpot(c));
    }

    private static Fact chose(Cursor c) {
        return new ClaimFact.Chose(
                c.word("option", ClaimFact.Option.class),
                spot(c, "place"),
                note(c, "reason"),
                c.has("damage") ? Optional.of(c.word("damage", ClaimFact.Damage.class)) : Optional.empty(),
                c.has("also")
                        ? Optional.of(inside(
                                c,
                                "also",
                                i -> new ClaimFact.Also(i.word("option", ClaimFact.Option.class), spot(i, "place"))))
                        : Optional.empty());
    }

    private static Fact approved(Cursor c) {
        return new ClaimFact.Approved(c.id("what"), maybeId(c, "approver"), maybeId(c, "number"), maybeDate(c, "date"));
    }

    private static Fact correction(Cursor c) {
        return new Fact.Correction(c.whole("corrects", 1, 999_999_999), inside(c, "replacement", FactReader::fact));
    }

    private static String note(Cursor c, String field) {
        return c.has(field) ? c.id(field) : "";
    }

    private static Spot spot(Cursor c, String field) {
        return inside(
                c,
                field,
                i -> new Spot(new PlaceId(i.word("kind", PlaceId.Kind.class), i.id("id")), maybeId(i, "rubPoint")));
    }
}
