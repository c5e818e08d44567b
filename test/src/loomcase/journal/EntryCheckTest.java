package loomcase.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.j1939.Code;
import loomcase.journal.Fact.Test;
import loomcase.model.Finding;
import loomcase.model.PlaceId;
import loomcase.model.read.CircuitReader;
import loomcase.model.read.Teaching;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What may be recorded of the teaching circuit, what must be confirmed and what is refused, word for word. */
class EntryCheckTest {
    private static final EntryCheck CHECK = new EntryCheck(Samples.circuit());
    private static final Admission ACCEPTED = new Admission.Accepted();

    @TempDir
    private Path folder;

    private static void refused(String reason, Fact fact) {
        assertEquals(new Admission.Refused(reason), CHECK.admit(fact));
        assertEquals(new Admission.Refused(reason), CHECK.admit(new Fact.Correction(2, fact)));
    }

    private static void odd(String reason, Fact fact) {
        assertEquals(new Admission.NeedsConfirmation(reason), CHECK.admit(fact));
        assertEquals(new Admission.NeedsConfirmation(reason), CHECK.admit(new Fact.Correction(2, fact)));
    }

    private static Fact volts(String a, String b, String shown) {
        return Samples.reading(Test.VOLTS, a, b, shown, Samples.KEY_ON);
    }

    private static Fact ohms(String shown, double leadZero) {
        Meter meter = new Meter("", OptionalDouble.empty(), OptionalDouble.of(leadZero));
        return new Fact.Reading(Test.OHMS, "J1/6", "C1/1", Shown.parse(shown), Samples.KEY_OFF, meter);
    }

    @org.junit.jupiter.api.Test
    void everySampleIsAccepted() {
        for (Fact fact : Samples.facts()) assertEquals(ACCEPTED, CHECK.admit(fact), fact.toString());
        assertEquals(ACCEPTED, CHECK.admit(Samples.opened()));
    }

    @org.junit.jupiter.api.Test
    void unknownPointsAreRefusedWithTheNearest() {
        refused("point 'chasis' is not in circuit teaching; did you mean 'chassis'?", volts("C1/1", "chasis", "5V"));
        refused("connector C1 has no cavity '9'; it has 1, 2", volts("C1/9", "chassis", "5V"));
        refused("connector C1 has no cavity ''; it has 1, 2", volts("C1", "chassis", "5V"));
        refused(
                "point 'S3' is not in circuit teaching; a point is CONNECTOR/CAVITY, a splice, a ground stud, FUSE/in,"
                        + " FUSE/out or chassis",
                volts("S3", "chassis", "5V"));
        refused("point 'W4@c' is not in circuit teaching; did you mean 'W4@b'?", volts("W4@c", "chassis", "5V"));
        refused("both leads are on C1/1; a reading needs two points", volts("C1/1", "C1/1", "5V"));
    }

    @org.junit.jupiter.api.Test
    void wrongUnitsAreRefused() {
        refused("a volts test gives volts, the reading 5 ohm is in ohms", volts("C1/1", "chassis", "5ohm"));
        refused("a volts test gives volts; only ohms can be open", volts("C1/1", "chassis", "OL"));
        refused(
                "a drop test gives volts, the reading 5 kohm is in ohms",
                Samples.reading(Test.DROP, "C1/1", "J1/6", "5k", Samples.KEY_ON));
        refused("an ohms test gives ohms, the reading 120 mV is in volts", ohms("120mV", 0));
        refused(
                "an isolation test gives ohms, the reading 5 V is in volts",
                Samples.reading(Test.ISOLATION, "C1/1", "chassis", "5V", Samples.KEY_OFF));
    }

    @org.junit.jupiter.api.Test
    void impossibleValuesAreRefused() {
        refused("150.1 V is not within -150 V to 150 V", volts("C1/1", "chassis", "150.1V"));
        refused("-151 V is not within -150 V to 150 V", volts("C1/1", "chassis", "-151V"));
        refused("1000 Mohm is more than a meter can measure; if it showed OL, record it as open", ohms("1000Mohm", 0));
        refused("-0.1 ohm is below 0; ohms below 0 come only from a lead zero, give that with it", ohms("-0.1ohm", 0));
        refused("-0.3 ohm is further below 0 than the lead zero of 0.2 ohm allows", ohms("-0.3ohm", 0.2));
        assertEquals(ACCEPTED, CHECK.admit(ohms("999Mohm", 0)));
        assertEquals(ACCEPTED, CHECK.admit(ohms("0ohm", 0)));
    }

    @org.junit.jupiter.api.Test
    void ohmsOnAPoweredCircuitAreRefusedAsHarm() {
        for (Test test : List.of(Test.OHMS, Test.ISOLATION))
            for (String shown : List.of("5ohm", "open"))
                refused(
                        "ohms on a powered circuit harm the meter and mean nothing, and the setup is key-on; key off"
                                + " first, then record it at key-off",
                        Samples.reading(test, "C1/1", "J1/6", shown, Samples.KEY_ON));
    }

    @org.junit.jupiter.api.Test
    void oddReadingsAreToBeConfirmed() {
        odd("16.1 V is above 16 V, more than a 12 V system gives", volts("J1/1", "chassis", "16.1V"));
        odd("-17 V is above 16 V, more than a 12 V system gives", volts("chassis", "J1/1", "-17V"));
        odd("5.6 V is above the 5 V supply that C2/1 is wired to", volts("C2/1", "chassis", "5.6V"));
        odd("5.6 V is above the 5 V supply that C3/1~ is wired to", volts("C3/1~", "C1/2", "5.6V"));
        odd("-5.6 V is above the 5 V supply that S1 is wired to", volts("G1", "S1", "-5.6V"));
        odd("-0.1 ohm is below 0 after the lead zero; zero the leads again", ohms("-0.1ohm", 0.2));
        odd(
                "a drop is read while current flows, and the key is off",
                Samples.reading(Test.DROP, "C1/1", "J1/6", "20mV", Samples.KEY_OFF));
        assertEquals(ACCEPTED, CHECK.admit(volts("J1/1", "chassis", "16.0V")));
        assertEquals(ACCEPTED, CHECK.admit(volts("C2/1", "chassis", "5.4V")));
        assertEquals(ACCEPTED, CHECK.admit(volts("C2/1", "J1/1", "-7.5V")));
        assertEquals(ACCEPTED, CHECK.admit(volts("C1/1", "chassis", "12.5V")));
    }

    @org.junit.jupiter.api.Test
    void a24VoltSystemIsOddFrom32Volts() throws IOException {
        Path file = new Teaching()
                .with("\"batteryVolts\": 12.5", "\"batteryVolts\": 25")
                .with("\"batteryVolts\": 13.8", "\"batteryVolts\": 28")
                .in(folder);
        EntryCheck check = new EntryCheck(CircuitReader.read(file));
        assertEquals(ACCEPTED, check.admit(volts("J1/1", "chassis", "28.4V")));
        assertEquals(
                new Admission.NeedsConfirmation("33 V is above 32 V, more than a 24 V system gives"),
                check.admit(volts("J1/1", "chassis", "33V")));
    }

    private static Fact in(Setup setup) {
        return Samples.reading(Test.VOLTS, "C1/1", "chassis", "5V", setup);
    }

    private static Setup setup(String at, Optional<String> phase, List<String> unplugged, List<Jumper> jumpers) {
        return new Setup(Optional.of(at), phase, unplugged, jumpers, OptionalDouble.empty());
    }

    @org.junit.jupiter.api.Test
    void unknownSetupsAreRefused() {
        refused(
                "operating point 'key-no' is not in circuit teaching; did you mean 'key-on'?",
                in(setup("key-no", Optional.empty(), List.of(), List.of())));
        refused(
                "phase of operating point key-on 'slot' is not in circuit teaching; there are rest, drive",
                in(setup("key-on", Optional.of("slot"), List.of(), List.of())));
        refused(
                "connector 'C9' is not in circuit teaching; there are J1, C1, C2, C3, C4, CB",
                in(setup("key-on", Optional.empty(), List.of("C9"), List.of())));
        refused(
                "jumper: connector C1 has no cavity '7'; it has 1, 2",
                in(setup("key-on", Optional.empty(), List.of(), List.of(new Jumper("C1/7", "C1/2", 0)))));
        refused(
                "operating point 'warm' is not in circuit teaching; there are key-on, idle-warm",
                new Fact.Codes(List.of(), List.of("warm"), Optional.empty(), Optional.empty()));
        refused(
                "connector 'C9' is not in circuit teaching; there are J1, C1, C2, C3, C4, CB",
                new Fact.Watched(
                        Fact.Method.UNPLUG,
                        setup("key-on", Optional.empty(), List.of("C9"), List.of()),
                        List.of(new Code(110, 3))));
    }

    @org.junit.jupiter.api.Test
    void unknownPlacesAndStepsAreRefused() {
        Spot none = Spot.of(PlaceId.Kind.WIRE, "W99");
        String reason = "wire 'W99' is not in circuit teaching; did you mean 'W9'?";
        refused(reason, new Fact.Seen(none, Finding.CUT, ""));
        refused(reason, new Fact.Work(Fact.Deed.REPAIRED, Optional.of(none), ""));
        refused(reason, new Fact.Moved(Fact.Action.HEAT, none, false, "", Samples.KEY_ON));
        refused(reason, new Fact.Swapped(Spot.of(PlaceId.Kind.DEVICE, "ECT"), none, Fact.Outcome.GONE, ""));
        refused(
                "device MAP reports no condition of the engine; allowed are device:ECT, device:OPS",
                new Fact.Gauged(Spot.of(PlaceId.Kind.DEVICE, "MAP"), Fact.Gauged.HEALTHY, ""));
        refused(
                "a battery is read with a meter, not gauged: record a reading in volts from CB/1 to chassis",
                new Fact.Gauged(Spot.of(PlaceId.Kind.DEVICE, "BAT"), Fact.Gauged.HEALTHY, ""));
        refused(
                "condition 'low' is not one of healthy, low-oil, which device OPS reports",
                new Fact.Gauged(Spot.of(PlaceId.Kind.DEVICE, "OPS"), "low", ""));
        refused(
                "rub point on branch B1 'R9' is not in circuit teaching; there are R1",
                new Fact.Seen(new Spot(new PlaceId(PlaceId.Kind.BRANCH, "B1"), Optional.of("R9")), Finding.CHAFE, ""));
        refused(
                "rub point on branch B2 'R1' is not in circuit teaching; it has none",
                new Fact.Seen(new Spot(new PlaceId(PlaceId.Kind.BRANCH, "B2"), Optional.of("R1")), Finding.CHAFE, ""));
        refused("access step 'covr' is not in circuit teaching; did you mean 'cover'?", new Fact.OpenedAccess("covr"));
        refused(
                "access step 'hood' is not in circuit teaching; there are cover, fan-guard, battery-box",
                new Fact.ClosedAccess("hood"));
        refused(
                "circuit id 'other' is not that of the file, which is 'teaching'",
                new Fact.Opened(
                        new Fact.CircuitFile("c.json", "other", Digest.NONE),
                        "lamp",
                        Optional.empty(),
                        OptionalDouble.empty()));
    }

    @ParameterizedTest
    @CsvSource({
        "C1, connector C1", "J1/6, cavity J1/6", "S1, splice S1", "W11, wire W11", "ECM, control-unit ECM",
        "ECT, device ECT", "G1, ground G1", "F1, fuse F1", "B2, branch B2", "R1, rub point R1 on branch B1",
        "B1@R1, rub point R1 on branch B1", "connector:C1, connector C1"
    })
    void typedPlacesAreFound(String typed, String place) {
        assertEquals(place, CHECK.names().spot(typed).toString());
    }

    @org.junit.jupiter.api.Test
    void typedPlacesThatAreNotThereOrTwiceAreRefused() throws IOException {
        assertEquals(
                "place 'ECN' is not in circuit teaching; did you mean 'ECM'?",
                assertThrows(InputProblem.class, () -> CHECK.names().spot("ECN"))
                        .getMessage());
        assertEquals(
                "place 'radiator' is not in circuit teaching; a place is a branch, connector, cavity, splice, wire,"
                        + " device, ground, fuse, rub point or the control unit",
                assertThrows(InputProblem.class, () -> CHECK.names().spot("radiator"))
                        .getMessage());
        Path file = new Teaching().with("{\"id\": \"R1\"", "{\"id\": \"C1\"").in(folder);
        CircuitNames twice = new EntryCheck(CircuitReader.read(file)).names();
        assertEquals(
                "place 'C1' may be connector:C1 or rub-point-on-B1:C1; write it so",
                assertThrows(InputProblem.class, () -> twice.spot("C1")).getMessage());
        assertEquals(
                "rub point C1 on branch B1", twice.spot("rub-point-on-B1:C1").toString());
    }

    @org.junit.jupiter.api.Test
    void stepsThatMustComeBeforeAreNamedInOrder() throws IOException {
        Path file = new Teaching()
                .with(
                        "off\", \"minutes\": 12, \"caution\": \"fan can turn: key out, battery isolated\", \"needs\": []",
                        "off\", \"minutes\": 12, \"caution\": \"\", \"needs\": [\"battery-box\"]")
                .with(
                        "lid off\", \"minutes\": 3, \"caution\": \"battery acid and hydrogen: eye protection\", \"needs\": []",
                        "lid off\", \"minutes\": 3, \"caution\": \"\", \"needs\": [\"cover\"]")
                .in(folder);
        EntryCheck check = new EntryCheck(CircuitReader.read(file));
        assertEquals(
                List.of("cover", "battery-box"),
                check.missingBefore("fan-guard", Set.of()).stream()
                        .map(s -> s.id())
                        .toList());
        assertEquals(List.of(), check.missingBefore("fan-guard", Set.of("cover", "battery-box")));
    }
}
