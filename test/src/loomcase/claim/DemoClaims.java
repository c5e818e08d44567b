package loomcase.claim;

import java.math.BigDecimal;
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
import loomcase.journal.ClaimFact;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.journal.Machine;
import loomcase.journal.Meter;
import loomcase.journal.Setup;
import loomcase.journal.Shown;
import loomcase.journal.Spot;
import loomcase.model.Finding;
import loomcase.model.PlaceId;

/** Writes the demo cases of {@code demo-cases/claims}: five invented stories on the reference harness. */
final class DemoClaims {
    static final Path FOLDER = Path.of("demo-cases/claims");
    static final List<String> NAMES = List.of("device", "incomplete", "section", "splice", "terminal");

    private static final Path CIRCUIT = Path.of("circuits/larch-13.json");
    private static final Meter METER = new Meter("hand meter 3", OptionalDouble.of(1e7), OptionalDouble.of(0.2));
    private static final Spot RUB = new Spot(new PlaceId(PlaceId.Kind.BRANCH, "BE2"), Optional.of("R2"));
    private static final Spot HOT = new Spot(new PlaceId(PlaceId.Kind.BRANCH, "BE11"), Optional.of("R8"));

    /** One entry with the minutes after the opening at which it was written, and who wrote it. */
    private record Told(int minute, String by, Fact fact) {}

    private final List<Told> story = new ArrayList<>();
    private int minute;
    private String by = "tech A";

    private DemoClaims() {}

    /** Writes all cases into a folder that has none yet. */
    static void write(Path folder) {
        splice().into(folder.resolve("splice.jsonl"), machine(1), 5210, "gauge jumps to hot, amber lamp, since a week");
        device().into(folder.resolve("device.jsonl"), machine(2), 7440, "amber lamp, little power after long climbs");
        terminal().into(folder.resolve("terminal.jsonl"), machine(3), 2980, "runs rough and stops after a wash");
        section().into(folder.resolve("section.jsonl"), machine(4), 9015, "amber lamp, smell of burnt plastic");
        incomplete().into(folder.resolve("incomplete.jsonl"), Machine.NOT_SAID, -1, "oil lamp flickers");
    }

    private static Machine machine(int n) {
        return new Machine(
                Optional.of("INVENTED-000" + n),
                Optional.of(LocalDate.of(2022, n, 15)),
                Optional.of((90 + 17 * n) * 1000 + " km"));
    }

    private void into(Path file, Machine machine, double hours, String complaint) {
        Fact.CircuitFile circuit =
                new Fact.CircuitFile("../../circuits/larch-13.json", "larch-13", Digest.ofFile(CIRCUIT));
        Fact.Opened opened = new Fact.Opened(
                circuit,
                complaint + " (invented case)",
                hours < 0 ? Optional.empty() : Optional.of("invented-" + file.getFileName()),
                hours < 0 ? OptionalDouble.empty() : OptionalDouble.of(hours),
                machine);
        OffsetDateTime start = OffsetDateTime.parse("2026-11-03T08:00:00+01:00");
        JournalFile.create(file, opened, Entry.Stamp.of(start, "desk"));
        for (Told t : story) JournalFile.append(file, t.fact(), Entry.Stamp.of(start.plusMinutes(t.minute()), t.by()));
    }

    private DemoClaims tell(int minutes, Fact fact) {
        minute += minutes;
        story.add(new Told(minute, by, fact));
        return this;
    }

    private DemoClaims by(String who) {
        by = who;
        return this;
    }

    private DemoClaims open(String... steps) {
        for (String s : steps) tell(9, new Fact.OpenedAccess(s));
        return this;
    }

    private DemoClaims close(String... steps) {
        for (String s : steps) tell(9, new Fact.ClosedAccess(s));
        return this;
    }

    private DemoClaims codes(Fact.ReadCode... codes) {
        Lamp amber = codes.length == 0 ? Lamp.OFF : new Lamp(Lamp.State.ON, Lamp.Flash.NONE);
        return tell(
                5,
                new Fact.Codes(
                        List.of(codes),
                        List.of("key-on", "idle-warm"),
                        Optional.empty(),
                        Optional.of(new Lamps(Lamp.OFF, amber, Lamp.OFF, Lamp.OFF))));
    }

    private static Fact.ReadCode active(int spn, int fmi, int count) {
        return new Fact.ReadCode(new Code(spn, fmi), OptionalInt.of(count), Fact.State.ACTIVE);
    }

    private static Setup off(String... unplugged) {
        return new Setup(Optional.empty(), Optional.empty(), List.of(unplugged), List.of(), OptionalDouble.of(20));
    }

    private DemoClaims reading(Fact.Test test, String a, String b, String shown, Setup setup) {
        return tell(8, new Fact.Reading(test, a, b, Shown.parse(shown), setup, METER));
    }

    private DemoClaims photo(ClaimFact.View view, String file, Spot spot, String shows) {
        Path path = FOLDER.resolve("photos").resolve(file);
        return tell(2, new ClaimFact.Photo("photos/" + file, Digest.ofFile(path), view, Optional.of(spot), shows));
    }

    private DemoClaims part(
            String name,
            String number,
            String quantity,
            String price,
            ClaimFact.Role role,
            ClaimFact.Sort sort,
            Spot at) {
        return tell(
                1,
                new ClaimFact.Part(
                        name,
                        Optional.of(number),
                        new BigDecimal(quantity),
                        price.isEmpty() ? Optional.empty() : Optional.of(new BigDecimal(price)),
                        role,
                        sort,
                        Optional.of(at)));
    }

    private DemoClaims repaired(int minutes, Fact.Deed deed, Spot at, String note) {
        return tell(minutes, new Fact.Work(deed, Optional.of(at), note, OptionalDouble.of(minutes)));
    }

    private DemoClaims cleared() {
        return tell(3, new Fact.Work(Fact.Deed.CLEARED_CODES, Optional.empty(), ""));
    }

    private DemoClaims photos(Spot at, String damage) {
        return photo(ClaimFact.View.OVERVIEW, "overview.png", at, "where on the engine")
                .photo(ClaimFact.View.CLOSE_UP, "close-up.png", at, damage);
    }

    private static DemoClaims splice() {
        return new DemoClaims()
                .codes(active(110, 4, 5))
                .open("hood", "top-cover", "left-guard", "unit-bracket")
                .tell(
                        4,
                        new Fact.Watched(
                                Fact.Method.UNPLUG,
                                new Setup(
                                        Optional.of("key-on"),
                                        Optional.empty(),
                                        List.of("C-ECT"),
                                        List.of(),
                                        OptionalDouble.empty()),
                                List.of(new Code(110, 4))))
                .reading(Fact.Test.OHMS, "J2/4", "chassis", "38.2ohm", off("J2", "C-ECT"))
                .tell(9, new Fact.Seen(RUB, Finding.CHAFE, "yellow wire bare on the bolt head, the rest sound"))
                .photos(RUB, "yellow wire rubbed through, scale beside it")
                .tell(
                        5,
                        new ClaimFact.Chose(
                                ClaimFact.Option.SPLICE_REPAIR,
                                RUB,
                                "one wire hurt over 10 mm, all others of the bundle sound",
                                Optional.of(ClaimFact.Damage.RUB)))
                .repaired(38, Fact.Deed.REPAIRED, RUB, "cut out 40 mm of W208, one new piece, two sealed crimp splices")
                .part("coolant signal wire", "AWG18-Y", "0.10", "1.35", ClaimFact.Role.CAUSAL, ClaimFact.Sort.WIRE, RUB)
                .part("sealed crimp splice", "SPL-18", "2", "6.00", ClaimFact.Role.USED, ClaimFact.Sort.OTHER, RUB)
                .repaired(9, Fact.Deed.REROUTED, RUB, "edge guard fitted, clip moved 30 mm from the bolt head")
                .tell(2, new ClaimFact.Kept("coolant signal wire", "17", "claims shelf 3"))
                .photo(ClaimFact.View.REPAIR, "repair.png", RUB, "finished splices, sleeves shrunk")
                .photo(ClaimFact.View.TAG, "tag.png", RUB, "cut-out with tag 17")
                .reading(Fact.Test.OHMS, "J2/4", "chassis", "open", off("J2", "C-ECT"))
                .reading(Fact.Test.OHMS, "J2/4", "C-ECT/1", "0.1ohm", off("J2", "C-ECT"))
                .cleared()
                .close("unit-bracket", "left-guard", "top-cover", "hood")
                .codes();
    }

    private static DemoClaims device() {
        Spot sensor = Spot.of(PlaceId.Kind.DEVICE, "EGT");
        return new DemoClaims()
                .codes(active(412, 3, 9))
                .open("hood", "heat-shield", "egr-pipe")
                .reading(Fact.Test.OHMS, "C-EGT/1~", "C-EGT/2~", "open", off("C-EGT"))
                .tell(3, new Fact.Seen(Spot.of(PlaceId.Kind.CONNECTOR, "C-EGT"), Finding.CLEAN, "both sides"))
                .photos(sensor, "sensor with plug off, cavities 1 and 2")
                .tell(
                        5,
                        new ClaimFact.Chose(
                                ClaimFact.Option.DEVICE,
                                sensor,
                                "sensor open by itself with the plug off, wiring not at fault",
                                Optional.of(ClaimFact.Damage.WEAR)))
                .repaired(25, Fact.Deed.REPLACED, sensor, "new sensor, thread cleaned, torque by the maker")
                .part(
                        "EGR gas temperature sensor",
                        "INV-EGT",
                        "1",
                        "",
                        ClaimFact.Role.CAUSAL,
                        ClaimFact.Sort.DEVICE,
                        sensor)
                .tell(2, new ClaimFact.Kept("EGR gas temperature sensor", "18", "claims shelf 3"))
                .photo(ClaimFact.View.REPAIR, "repair.png", sensor, "new sensor plugged")
                .reading(Fact.Test.OHMS, "C-EGT/1~", "C-EGT/2~", "60.4kohm", off("C-EGT"))
                .cleared()
                .close("egr-pipe", "heat-shield", "hood")
                .codes();
    }

    private static DemoClaims terminal() {
        Spot cavity = Spot.of(PlaceId.Kind.CAVITY, "C-FRP/3");
        Setup on = new Setup(Optional.of("key-on"), Optional.empty(), List.of(), List.of(), OptionalDouble.empty());
        return new DemoClaims()
                .by("tech B")
                .codes(active(157, 4, 3))
                .open("hood", "left-guard", "unit-bracket")
                .reading(Fact.Test.VOLTS, "J2/11", "chassis", "0.02V", on)
                .tell(
                        3,
                        new Fact.Seen(
                                Spot.of(PlaceId.Kind.CONNECTOR, "C-FRP"), Finding.PUSHED_OUT_TERMINAL, "plug was home"))
                .tell(3, new Fact.Seen(cavity, Finding.PUSHED_OUT_TERMINAL, "stands 3 mm back, water marks"))
                .photos(cavity, "cavity 3 seen from the mating face, terminal back")
                .tell(
                        4,
                        new ClaimFact.Chose(
                                ClaimFact.Option.TERMINAL,
                                cavity,
                                "lock finger of the terminal broken, housing sound",
                                Optional.of(ClaimFact.Damage.INSTALLATION)))
                .repaired(22, Fact.Deed.REPLACED, cavity, "new terminal and seal crimped, pull test, seated")
                .part("terminal 1.5 tin", "TRM-15", "1", "", ClaimFact.Role.CAUSAL, ClaimFact.Sort.TERMINAL, cavity)
                .tell(2, new ClaimFact.Kept("terminal 1.5 tin", "19", "claims shelf 3"))
                .photo(ClaimFact.View.REPAIR, "repair.png", cavity, "terminal seated, lock closed")
                .reading(Fact.Test.VOLTS, "J2/11", "chassis", "0.51V", on)
                .cleared()
                .close("unit-bracket", "left-guard", "hood")
                .codes();
    }

    private static DemoClaims section() {
        return new DemoClaims()
                .codes(active(412, 3, 14))
                .open("hood", "heat-shield", "egr-pipe", "left-guard", "unit-bracket")
                .reading(Fact.Test.OHMS, "J2/38", "C-EGT/1", "open", off("J2", "C-EGT"))
                .tell(9, new Fact.Seen(HOT, Finding.MELTED, "sleeve and six wires melted together over 120 mm"))
                .photos(HOT, "melted bundle at the cooler clamp, scale beside it")
                .tell(
                        6,
                        new ClaimFact.Chose(
                                ClaimFact.Option.BRANCH_SECTION,
                                HOT,
                                "six circuits hurt over 120 mm, no room for six sealed splices there",
                                Optional.of(ClaimFact.Damage.HEAT)))
                .by("desk")
                .tell(
                        20,
                        new ClaimFact.Approved(
                                "hot-side section",
                                Optional.of("regional desk"),
                                Optional.of("AP-4471"),
                                Optional.of(LocalDate.of(2026, 11, 3))))
                .by("tech A")
                .repaired(150, Fact.Deed.REPLACED, HOT, "hot-side section fitted, heat sleeve, new clamp")
                .part("hot-side section", "INV-HS", "1", "", ClaimFact.Role.CAUSAL, ClaimFact.Sort.SECTION, HOT)
                .part("cooler clamp", "INV-CL", "1", "4.80", ClaimFact.Role.CONSEQUENTIAL, ClaimFact.Sort.OTHER, HOT)
                .tell(2, new ClaimFact.Kept("hot-side section", "20", "claims shelf 4"))
                .photo(ClaimFact.View.REPAIR, "repair.png", HOT, "new section in its clips")
                .reading(Fact.Test.OHMS, "J2/38", "C-EGT/1", "0.1ohm", off("J2", "C-EGT"))
                .cleared()
                .close("unit-bracket", "left-guard", "egr-pipe", "heat-shield", "hood")
                .codes();
    }

    /** Codes cleared first, no leads zeroed, the wrong thing claimed, nothing proved. */
    private static DemoClaims incomplete() {
        Spot plug = Spot.of(PlaceId.Kind.CAVITY, "C-OPS/3");
        return new DemoClaims()
                .cleared()
                .codes(new Fact.ReadCode(new Code(100, 4), OptionalInt.empty(), Fact.State.STORED))
                .tell(
                        8,
                        new Fact.Reading(
                                Fact.Test.OHMS,
                                "J2/6",
                                "C-OPS/3",
                                Shown.parse("900ohm"),
                                Setup.at(Optional.empty()),
                                Meter.NOT_SAID))
                .tell(3, new ClaimFact.Chose(ClaimFact.Option.TERMINAL, plug, "", Optional.empty()))
                .tell(15, new Fact.Work(Fact.Deed.REPAIRED, Optional.of(plug), ""))
                .tell(
                        1,
                        new ClaimFact.Part(
                                "oil pressure sensor",
                                Optional.empty(),
                                BigDecimal.ONE,
                                Optional.empty(),
                                ClaimFact.Role.CAUSAL,
                                ClaimFact.Sort.DEVICE,
                                Optional.of(Spot.of(PlaceId.Kind.DEVICE, "OPS"))));
    }
}
