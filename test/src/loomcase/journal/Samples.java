package loomcase.journal;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import loomcase.j1939.Code;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.model.Circuit;
import loomcase.model.Finding;
import loomcase.model.PlaceId;
import loomcase.model.read.CircuitReader;
import loomcase.model.read.Teaching;

/** Facts of every kind about the teaching circuit, and cases made of them; our own invented data. */
final class Samples {
    static final OffsetDateTime TIME = OffsetDateTime.parse("2024-05-01T10:20:30+02:00");
    static final Entry.Stamp STAMP = Entry.Stamp.of(TIME, "ada");
    static final Setup KEY_ON = Setup.at(Optional.of("key-on"));
    static final Setup KEY_OFF = Setup.at(Optional.empty());

    private Samples() {}

    static Circuit circuit() {
        return CircuitReader.read(Teaching.FILE);
    }

    static Fact.Opened opened() {
        return new Fact.Opened(
                new Fact.CircuitFile("circuits/teaching.json", "teaching", Digest.ofFile(Teaching.FILE)),
                "lamp on, derate \"sometimes\"\nwhen wet, ≤ 5 °C",
                Optional.of("T-7"),
                OptionalDouble.of(1234.5),
                new Machine(
                        Optional.of("E-0007"), Optional.of(LocalDate.parse("2021-03-15")), Optional.of("412300 km")));
    }

    static Fact.Reading reading(Fact.Test test, String a, String b, String shown, Setup setup) {
        return new Fact.Reading(test, a, b, Shown.parse(shown), setup, Meter.NOT_SAID);
    }

    private static Setup full() {
        return new Setup(
                Optional.of("idle-warm"),
                Optional.of("drive"),
                List.of("C1", "C2"),
                List.of(new Jumper("C1/1", "C1/2", 0), new Jumper("C2/1", "chassis", 1000.5)),
                OptionalDouble.of(-12.5));
    }

    /** At least one fact of every kind but the opening, each field filled in some and left out in others. */
    static List<Fact> facts() {
        List<Fact> out = new ArrayList<>(evidence());
        out.addAll(deeds());
        out.addAll(clerk());
        out.add(new Fact.Correction(2, reading(Fact.Test.OHMS, "J1/6", "C1/1", "0.4ohm", KEY_OFF)));
        out.add(new Fact.Correction(1, opened()));
        return out;
    }

    private static List<Fact> evidence() {
        Fact.ReadCode active = new Fact.ReadCode(new Code(110, 3), OptionalInt.of(4), Fact.State.ACTIVE);
        Fact.ReadCode stored = new Fact.ReadCode(new Code(100, 4), OptionalInt.empty(), Fact.State.STORED);
        Lamp flashing = new Lamp(Lamp.State.ON, Lamp.Flash.FAST);
        return List.of(
                new Fact.Codes(
                        List.of(active, stored),
                        List.of("key-on", "idle-warm"),
                        Optional.of(new Fact.LogFile("bus.log", Digest.of("log"))),
                        Optional.of(new Lamps(Lamp.OFF, flashing, Lamp.OFF, Lamp.ON))),
                new Fact.Codes(List.of(), List.of("key-on"), Optional.empty(), Optional.empty()),
                reading(Fact.Test.VOLTS, "C1/1", "chassis", "5.00V", KEY_ON),
                new Fact.Reading(
                        Fact.Test.DROP,
                        "S2",
                        "C1/2~",
                        new Shown.Number(new BigDecimal("-120"), Shown.Unit.MILLIVOLT),
                        full(),
                        new Meter("bench", OptionalDouble.of(1e7), OptionalDouble.of(0.2))),
                reading(Fact.Test.ISOLATION, "W4@b", "F1/in", "open", KEY_OFF),
                new Fact.Watched(Fact.Method.UNPLUG, full(), List.of(new Code(110, 4), new Code(102, 3))),
                new Fact.Watched(Fact.Method.JUMPER, full(), List.of()),
                new Fact.Moved(
                        Fact.Action.WIGGLE, Spot.of(PlaceId.Kind.CONNECTOR, "C1"), true, "110/4 came up", KEY_ON),
                new Fact.Moved(Fact.Action.SPRAY, Spot.of(PlaceId.Kind.WIRE, "W11"), false, "", KEY_ON),
                new Fact.Seen(
                        new Spot(new PlaceId(PlaceId.Kind.BRANCH, "B1"), Optional.of("R1")), Finding.CHAFE, "to metal"),
                new Fact.Seen(Spot.of(PlaceId.Kind.CONTROL_UNIT, "ECM"), Finding.CLEAN, ""));
    }

    private static List<Fact> deeds() {
        return List.of(
                new Fact.Swapped(
                        Spot.of(PlaceId.Kind.DEVICE, "OPS"),
                        Spot.of(PlaceId.Kind.DEVICE, "MAP"),
                        Fact.Outcome.FOLLOWED,
                        "both warm"),
                new Fact.Gauged(Spot.of(PlaceId.Kind.DEVICE, "OPS"), Fact.Gauged.HEALTHY, "3.1 bar at idle"),
                new Fact.OpenedAccess("cover"),
                new Fact.ClosedAccess("cover"),
                new Fact.Refused("volts C1/1", "terminal seized"),
                new Fact.Work(Fact.Deed.RESEATED, Optional.of(Spot.of(PlaceId.Kind.CAVITY, "C1/1")), "clicked"),
                new Fact.Work(Fact.Deed.CLEARED_CODES, Optional.empty(), ""),
                new Fact.Note("truck stood in rain"));
    }

    private static List<Fact> clerk() {
        Spot rub = new Spot(new PlaceId(PlaceId.Kind.BRANCH, "B1"), Optional.of("R1"));
        return List.of(
                new Fact.Work(
                        Fact.Deed.REPAIRED,
                        Optional.of(Spot.of(PlaceId.Kind.SPLICE, "S1")),
                        "crimped and sealed",
                        OptionalDouble.of(42.5)),
                new ClaimFact.Photo(
                        "photos/1.jpg",
                        Digest.of("1"),
                        ClaimFact.View.CLOSE_UP,
                        Optional.of(rub),
                        "wire rubbed through"),
                new ClaimFact.Photo("2.jpg", Digest.of("2"), ClaimFact.View.TAG, Optional.empty(), "tag 17"),
                new ClaimFact.Kept("signal wire", "17", "shelf 3"),
                new ClaimFact.Part(
                        "signal wire",
                        Optional.of("W-1"),
                        new BigDecimal("0.40"),
                        Optional.of(new BigDecimal("12.50")),
                        ClaimFact.Role.CAUSAL,
                        ClaimFact.Sort.WIRE,
                        Optional.of(rub)),
                new ClaimFact.Part(
                        "sleeve",
                        Optional.empty(),
                        BigDecimal.ONE,
                        Optional.empty(),
                        ClaimFact.Role.USED,
                        ClaimFact.Sort.OTHER,
                        Optional.empty()),
                new ClaimFact.Chose(
                        ClaimFact.Option.SPLICE_REPAIR, rub, "one wire hurt", Optional.of(ClaimFact.Damage.RUB)),
                new ClaimFact.Chose(ClaimFact.Option.MONITOR, rub, "", Optional.empty()),
                new ClaimFact.Chose(
                        ClaimFact.Option.TERMINAL,
                        rub,
                        "both hurt",
                        Optional.empty(),
                        Optional.of(new ClaimFact.Also(ClaimFact.Option.SPLICE_REPAIR, rub))),
                new ClaimFact.Approved(
                        "overtime",
                        Optional.of("service desk"),
                        Optional.of("A-12"),
                        Optional.of(LocalDate.parse("2024-05-02"))),
                new ClaimFact.Approved("sublet", Optional.empty(), Optional.empty(), Optional.empty()));
    }

    /** Opens a case and adds facts. */
    static Path write(Path folder, List<Fact> facts) {
        Path file = folder.resolve("case.jsonl");
        JournalFile.create(file, opened(), STAMP);
        for (Fact fact : facts) JournalFile.append(file, fact, new Entry.Stamp(TIME, "bob", Optional.of("odd: é")));
        return file;
    }

    /** The lines of a file without their line feeds. */
    static List<String> lines(Path file) {
        try {
            return new ArrayList<>(Files.readAllLines(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Writes lines, each with its line feed. */
    static Path put(Path file, List<String> lines) {
        try {
            return Files.writeString(file, String.join("\n", lines) + "\n");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
