package loomcase.model.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.file.Path;
import loomcase.InputProblem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Names that lead nowhere: each is refused with a sentence that names the place, held word for word. */
class ReferencesTest {
    @TempDir
    private Path folder;

    private void refused(Teaching circuit, String sentence) {
        Path file = circuit.in(folder);
        InputProblem problem = assertThrows(InputProblem.class, () -> CircuitReader.read(file));
        assertEquals(file + ": " + sentence, problem.getMessage());
    }

    @Test
    void wireThatGoesNowhere() {
        refused(
                new Teaching().with("\"from\": \"J1/6\", \"to\": \"C1/1\"", "\"from\": \"J1/6\", \"to\": \"C9/1\""),
                "wire W11: end 'C9/1' goes nowhere; use CONNECTOR/CAVITY, a splice, a ground, FUSE/in or FUSE/out");
    }

    @Test
    void wireToACavityThatTheConnectorLacks() {
        refused(
                new Teaching().with("\"from\": \"J1/6\", \"to\": \"C1/1\"", "\"from\": \"J1/6\", \"to\": \"C1/7\""),
                "wire W11: end 'C1/7' goes nowhere; use CONNECTOR/CAVITY, a splice, a ground, FUSE/in or FUSE/out");
    }

    @Test
    void wireToAThirdSideOfAFuse() {
        refused(
                new Teaching().with("\"to\": \"F1/in\"", "\"to\": \"F1/inside\""),
                "wire W1: end 'F1/inside' goes nowhere; use CONNECTOR/CAVITY, a splice, a ground, FUSE/in or FUSE/out");
    }

    @Test
    void watchOnAPinThatTheUnitLacks() {
        refused(
                new Teaching()
                        .with(
                                "\"measure\": {\"volts\": \"J1/1\", \"phase\": \"rest\"}",
                                "\"measure\": {\"volts\": \"J1/9\", \"phase\": \"rest\"}"),
                "watch 168/4: measures 'J1/9', which is no control-unit pin");
    }

    @Test
    void watchInAPhaseThatTheOperatingPointLacks() {
        refused(
                new Teaching()
                        .with(
                                "\"measure\": {\"volts\": \"J1/1\", \"phase\": \"rest\"}",
                                "\"measure\": {\"volts\": \"J1/1\", \"phase\": \"talk\"}"),
                "watch 168/4: operating point key-on has no phase 'talk' (and 1 more of this sort)");
    }

    @Test
    void watchAtAnUnknownOperatingPoint() {
        refused(
                new Teaching()
                        .with(
                                "\"spreadVolts\": 0.2, \"at\": [\"key-on\", \"idle-warm\"]",
                                "\"spreadVolts\": 0.2, \"at\": [\"key-on\", \"loaded\"]"),
                "watch 168/4: operating point 'loaded' does not exist");
    }

    @Test
    void watchOfAnUnknownDevice() {
        refused(
                new Teaching()
                        .with(
                                "\"circuitKind\": \"power\", \"device\": \"\"",
                                "\"circuitKind\": \"power\", \"device\": \"ALT\""),
                "watch 168/4: device 'ALT' does not exist");
    }

    @Test
    void watchOfAnUnknownRail() {
        refused(
                new Teaching()
                        .with(
                                "\"circuitKind\": \"power\", \"device\": \"\", \"rail\": \"\"",
                                "\"circuitKind\": \"power\", \"device\": \"\", \"rail\": \"5VB\""),
                "watch 168/4: rail '5VB' does not exist");
    }

    @Test
    void phaseThatSwitchesOnNothingKnown() {
        refused(
                new Teaching()
                        .with(
                                "{\"id\": \"drive\", \"on\": [\"J1/5\"]}\n      ]},\n    {\"id\": \"idle-warm\"",
                                "{\"id\": \"drive\", \"on\": [\"PUMP\"]}\n      ]},\n    {\"id\": \"idle-warm\""),
                "operating point key-on: phase drive switches on 'PUMP', which is no device and no control-unit pin");
    }

    @Test
    void accessStepThatIsNotThere() {
        refused(
                new Teaching().with("\"clips\": 4, \"access\": [\"cover\"]", "\"clips\": 4, \"access\": [\"hood\"]"),
                "branch B1: access step 'hood' does not exist");
    }

    @Test
    void accessStepsThatNeedEachOther() {
        refused(
                new Teaching()
                        .with(
                                "\"minutes\": 8, \"caution\": \"\", \"needs\": []",
                                "\"minutes\": 8, \"needs\": [\"fan-guard\"]")
                        .with("battery isolated\", \"needs\": []", "battery isolated\", \"needs\": [\"cover\"]"),
                "access step cover: needs itself in a circle (and 1 more of this sort)");
    }

    @Test
    void accessStepThatLeadsIntoACircleIsNotItselfBlamed() {
        refused(
                new Teaching()
                        .with(
                                "\"minutes\": 8, \"caution\": \"\", \"needs\": []",
                                "\"minutes\": 8, \"needs\": [\"fan-guard\"]")
                        .with("battery isolated\", \"needs\": []", "battery isolated\", \"needs\": [\"fan-guard\"]"),
                "access step fan-guard: needs itself in a circle");
    }

    @Test
    void idUsedByTwoPartsOfDifferentKinds() {
        refused(
                new Teaching().with("{\"id\": \"W15\",", "{\"id\": \"G1\","),
                "wire G1: the id is used by another part; give it its own");
    }

    @Test
    void railIdUsedByADevice() {
        refused(
                new Teaching()
                        .with("{\"id\": \"FAN\",", "{\"id\": \"5VA\",")
                        .with("\"mates\": \"FAN\"", "\"mates\": \"5VA\""),
                "rail 5VA: the id is used by another part; give it its own (and 4 more of this sort)");
    }

    @Test
    void connectorOnNothing() {
        refused(
                new Teaching().with("\"mates\": \"FAN\"", "\"mates\": \"PUMP\""),
                "connector C4: mates 'PUMP', which is no device, no other connector and no control unit that lists it"
                        + " (and 2 more of this sort)");
    }

    @Test
    void controlUnitPlugThatTheUnitDoesNotList() {
        refused(
                new Teaching().with("\"mates\": \"FAN\"", "\"mates\": \"ECM\""),
                "connector C4: mates 'ECM', which is no device, no other connector and no control unit that lists it"
                        + " (and 2 more of this sort)");
    }

    @Test
    void controlUnitThatListsAPlugOfSomethingElse() {
        refused(
                new Teaching().with("\"connectors\": [\"J1\"]", "\"connectors\": [\"J1\", \"C4\"]"),
                "control unit ECM: lists connector 'C4', which is no connector that mates the unit");
    }

    @Test
    void inlineHalvesThatDoNotNameEachOther() {
        refused(
                new Teaching().with("\"mates\": \"FAN\"", "\"mates\": \"C3\""),
                "connector C4: mates C3, which mates MAP; the two halves must name each other"
                        + " (and 2 more of this sort)");
    }

    @Test
    void connectorAtNoBranch() {
        refused(
                new Teaching().with("\"at\": \"JN3\"", "\"at\": \"JN9\""),
                "connector C3: hangs at 'JN9', which is the end of no branch");
    }

    @Test
    void terminalOnTheConnectorOfAnotherDevice() {
        refused(
                new Teaching().with("\"b\": \"C4/2\"", "\"b\": \"C3/2\""),
                "device FAN: terminal b lands on 'C3/2', which is not a cavity of a connector that mates the device"
                        + " (and 1 more of this sort)");
    }

    @Test
    void twoTerminalsInOneCavity() {
        refused(
                new Teaching().with("\"b\": \"C4/2\"", "\"b\": \"C4/1\""),
                "device FAN: cavity C4/1 carries two terminals");
    }

    @Test
    void valueAtAnOperatingPointThatIsNotThere() {
        refused(
                new Teaching().with("\"usual\": 0.1, \"idle-warm\": 0.4", "\"usual\": 0.1, \"idle\": 0.4"),
                "device OPS: has a value for operating point 'idle', which does not exist");
    }

    @Test
    void pinThatIsNoCavityOfTheUnit() {
        refused(
                new Teaching().with("{\"cavity\": \"J1/2\"", "{\"cavity\": \"C4/2\""),
                "control-unit pin C4/2: is not a cavity of the unit's connectors [J1]");
    }

    @Test
    void pinOnAnUnknownRail() {
        refused(
                new Teaching()
                        .with(
                                "\"function\": \"supply\", \"rail\": \"5VA\"",
                                "\"function\": \"supply\", \"rail\": \"5VB\""),
                "control-unit pin J1/3: rail '5VB' does not exist");
    }

    @Test
    void railNamedLikeAnInsidePoint() {
        refused(
                new Teaching()
                        .with("{\"id\": \"5VA\", \"volts\"", "{\"id\": \"power\", \"volts\"")
                        .with(
                                "\"function\": \"supply\", \"rail\": \"5VA\"",
                                "\"function\": \"supply\", \"rail\": \"power\""),
                "rail power: the id is the name of an inside point of every unit; give it another"
                        + " (and 7 more of this sort)");
    }

    @Test
    void unitWithoutGround() {
        refused(
                new Teaching().without("\"function\": \"ground\""),
                "control unit ECM: has no pin with function ground");
    }

    @Test
    void unitWithoutFeed() {
        refused(
                new Teaching()
                        .with(
                                "\"function\": \"power\", \"loadOhms\": 12",
                                "\"function\": \"pull-down-input\", \"ohms\": 12"),
                "control unit ECM: has no pin with function power");
    }

    @Test
    void spliceInNoBranch() {
        refused(
                new Teaching()
                        .with("\"branch\": \"B1\", \"metresAlong\": 0.5", "\"branch\": \"B9\", \"metresAlong\": 0.5"),
                "splice S1: branch 'B9' does not exist");
    }

    @Test
    void spliceBeyondItsBranch() {
        refused(
                new Teaching()
                        .with("\"branch\": \"B1\", \"metresAlong\": 0.5", "\"branch\": \"B1\", \"metresAlong\": 1.5"),
                "splice S1: lies at 1.5 m, past the end of branch B1");
    }

    @Test
    void branchesInALoop() {
        refused(
                new Teaching()
                        .with("\"from\": \"JN1\", \"to\": \"JN3\"", "\"from\": \"JN1\", \"to\": \"JN2\"")
                        .with("\"at\": \"JN3\"", "\"at\": \"JN2\""),
                "branch B3 closes a loop of branches at JN2; a loom is a tree, so remove or re-end one branch of the loop");
    }

    @Test
    void branchesInTwoPieces() {
        refused(
                new Teaching().with("\"from\": \"JN1\", \"to\": \"JN3\"", "\"from\": \"JN8\", \"to\": \"JN3\""),
                "junction JN8 is not joined to JN0 by branches; add the branch between them (and 1 more of this sort)");
    }

    @Test
    void sectionOfAnUnknownBranch() {
        refused(
                new Teaching().with("\"branches\": [\"B2\"]", "\"branches\": [\"B7\"]"),
                "section front: branch 'B7' does not exist");
    }

    @Test
    void priceOfAnUnknownDevice() {
        refused(
                new Teaching().with("\"FAN\": \"260.00\"", "\"FNA\": \"260.00\""),
                "price of a device part: device 'FNA' does not exist");
    }

    @Test
    void wireTwistedWithOneThatDoesNotNameIt() {
        refused(
                new Teaching()
                        .with("\"to\": \"F1/in\", \"size\"", "\"to\": \"F1/in\", \"twistedWith\": \"W2\", \"size\""),
                "wire W1: twistedWith 'W2' must be another wire that names this one in its twistedWith");
    }
}
