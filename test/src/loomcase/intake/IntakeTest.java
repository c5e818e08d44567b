package loomcase.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import loomcase.InputProblem;
import loomcase.demo.Harness;
import loomcase.j1939.CodeList;
import loomcase.rank.Evidence;
import org.junit.jupiter.api.Test;

/** From typed codes to evidence, with what was assumed said aloud. */
class IntakeTest {
    private static Intake typed(String active, String stored, List<String> at) {
        return Intake.typed(Harness.TEACHING.circuit(), CodeList.parse(active), CodeList.parse(stored), at);
    }

    @Test
    void activeAndStoredKeepTheirStateAndCount() {
        Evidence e = typed("110/3x4", "100/4", List.of("key-on")).evidence();
        assertEquals(List.of("key-on"), e.operatingPoints());
        assertEquals(2, e.codes().size());
        assertEquals(Evidence.State.ACTIVE, e.codes().get(0).state());
        assertEquals(java.util.OptionalInt.of(4), e.codes().get(0).count());
        assertEquals(Evidence.State.STORED, e.codes().get(1).state());
        assertEquals(java.util.OptionalInt.empty(), e.codes().get(1).count());
    }

    @Test
    void withoutAnOperatingPointKeyOnAndIdleAreAssumedAndSaid() {
        Intake i = typed("110/3", "", List.of());
        assertEquals(List.of("key-on", "idle-warm"), i.evidence().operatingPoints());
        assertEquals(
                List.of(
                        "taken as looked at: key-on, idle-warm (nothing says whether the engine ran); name operating points to say otherwise"),
                i.notes());
    }

    @Test
    void anUnknownSpnIsNoted() {
        assertEquals(
                List.of("code 9999/31 belongs to no circuit of this model and is left unexplained"),
                typed("9999/31", "", List.of("key-on")).notes());
    }

    @Test
    void aCodeBothActiveAndStoredIsRefused() {
        InputProblem p = assertThrows(InputProblem.class, () -> typed("110/3", "110/3", List.of()));
        assertEquals("code 110/3 is given as active and as stored; give it once", p.getMessage());
    }

    @Test
    void anUnknownOperatingPointIsRefusedWithThoseThereAre() {
        InputProblem p = assertThrows(InputProblem.class, () -> typed("110/3", "", List.of("flat-out")));
        assertEquals("operating point 'flat-out' is not one of [key-on, idle-warm]", p.getMessage());
    }
}
