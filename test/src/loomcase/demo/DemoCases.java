package loomcase.demo;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.casework.CaseFile;
import loomcase.j1939.Lamps;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.journal.Meter;
import loomcase.journal.Setup;
import loomcase.journal.Shown;
import loomcase.journal.Spot;
import loomcase.journal.Standing;
import loomcase.model.Finding;
import loomcase.model.PlaceId;

/**
 * Writes {@code demo-cases/five-volt-repaired.jsonl}: the invented case of {@code shared-splice.jsonl} carried on through
 * repair and proof.
 *
 * <p>Run from the project folder after the tests are compiled: {@code java -cp
 * "target/test-classes:target/classes:target/lib/*" loomcase.demo.DemoCases}.
 */
public final class DemoCases {
    private static final Path START = Path.of("demo-cases", "shared-splice.jsonl");
    private static final Path REPAIRED = Path.of("demo-cases", "five-volt-repaired.jsonl");
    private static final Path CIRCUIT = Path.of("circuits", "larch-13.json");
    private static final List<String> FEED = List.of("J2", "C-FRP", "C-FDP", "C-OLV", "C-OPS", "C-CCP");
    private static final Spot SPLICE = Spot.of(PlaceId.Kind.SPLICE, "S5A");

    private DemoCases() {}

    public static void main(String[] arguments) throws IOException {
        Files.deleteIfExists(REPAIRED);
        write(REPAIRED);
    }

    /** Writes the repaired case to a file that is not there yet. */
    public static void write(Path file) {
        List<Standing> start = JournalFile.read(START).standing();
        Fact.Opened told = (Fact.Opened) start.get(0).fact();
        Fact.Opened opened = new Fact.Opened(CaseFile.name(file, CIRCUIT), told.complaint(), told.unit(), told.hours());
        JournalFile.create(file, opened, start.get(0).stamp());
        for (Standing s : start.subList(1, start.size())) JournalFile.append(file, s.fact(), s.stamp());
        new Lines(file).carryOn();
    }

    /** Adds lines, each some minutes after the one before. */
    private static final class Lines {
        private final Path file;
        private OffsetDateTime now = OffsetDateTime.parse("2026-11-02T09:51:00Z");

        Lines(Path file) {
            this.file = file;
        }

        private Lines after(int minutes, Fact fact) {
            now = now.plusMinutes(minutes);
            JournalFile.append(file, fact, Entry.Stamp.of(now, "demo"));
            return this;
        }

        void carryOn() {
            found();
            measured();
            closed();
            ran();
        }

        private void found() {
            after(6, new Fact.Seen(SPLICE, Finding.GREEN_COPPER, "loom opened at the splice: crimp corroded through"))
                    .after(
                            31,
                            new Fact.Work(Fact.Deed.REPAIRED, Optional.of(SPLICE), "new crimp splice, sealed sleeve"));
        }

        private void measured() {
            after(17, new Fact.OpenedAccess("undershield"))
                    .after(8, new Fact.OpenedAccess("fuel-guard"))
                    .after(6, reading(Fact.Test.OHMS, "J2/2", "C-FRP/1", "0.14", Shown.Unit.OHM))
                    .after(2, reading(Fact.Test.OHMS, "J2/2", "C-OPS/1", "0.19", Shown.Unit.OHM))
                    .after(
                            3,
                            new Fact.Reading(
                                    Fact.Test.ISOLATION,
                                    "J2/2",
                                    "chassis",
                                    new Shown.OverRange(),
                                    apart(),
                                    new Meter("", OptionalDouble.empty(), OptionalDouble.of(0.1))))
                    .after(
                            4,
                            new Fact.Seen(
                                    SPLICE, Finding.CLEAN, "sleeve sealed at both ends, loom wrapped and clipped"));
        }

        private static Fact reading(Fact.Test test, String a, String b, String amount, Shown.Unit unit) {
            return new Fact.Reading(
                    test,
                    a,
                    b,
                    new Shown.Number(new BigDecimal(amount), unit),
                    apart(),
                    new Meter("", OptionalDouble.empty(), OptionalDouble.of(0.1)));
        }

        private static Setup apart() {
            return new Setup(Optional.empty(), Optional.empty(), FEED, List.of(), OptionalDouble.of(20));
        }

        private void closed() {
            for (String plug : FEED)
                after(
                        1,
                        new Fact.Seen(
                                Spot.of(PlaceId.Kind.CONNECTOR, plug), Finding.CLEAN, "plugged in, latched, tugged"));
            after(
                            5,
                            new Fact.Moved(
                                    Fact.Action.WIGGLE,
                                    SPLICE,
                                    false,
                                    "five pressures in view, 2 minutes",
                                    at("key-on")))
                    .after(9, new Fact.ClosedAccess("fuel-guard"))
                    .after(6, new Fact.ClosedAccess("unit-bracket"))
                    .after(7, new Fact.ClosedAccess("undershield"))
                    .after(6, new Fact.ClosedAccess("left-guard"));
        }

        private void ran() {
            after(1, new Fact.Work(Fact.Deed.CLEARED_CODES, Optional.empty(), ""))
                    .after(
                            14,
                            new Fact.Codes(
                                    List.of(),
                                    List.of("key-on", "idle-warm"),
                                    Optional.empty(),
                                    Optional.of(Lamps.OFF)))
                    .after(2, new Fact.ClosedAccess("hood"))
                    .after(
                            28,
                            new Fact.Codes(
                                    List.of(),
                                    List.of("key-on", "idle-warm", "loaded-hot"),
                                    Optional.empty(),
                                    Optional.of(Lamps.OFF)));
        }

        private static Setup at(String point) {
            return Setup.at(Optional.of(point));
        }
    }
}
