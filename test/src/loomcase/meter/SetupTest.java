package loomcase.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import loomcase.model.Names;
import org.junit.jupiter.api.Test;

class SetupTest {
    private static final Larch LARCH = new Larch();

    @Test
    void eitherHalfOfAnInlinePairTakesItApart() {
        for (String half : List.of("XBa", "XBb")) {
            var volts = new loomcase.meter.Test.Volts("XBb/24", Names.CHASSIS, LARCH.rest.unplug(List.of(half)));
            assertEquals(0, LARCH.mean(volts), 0.01, half + ": the cab side of a 5 V wire is dead");
        }
    }

    @Test
    void aJumperInTheSetupFeedsWhatItTouches() {
        Setup apart = LARCH.rest.unplug(List.of("C-OPS"));
        assertEquals(0, LARCH.mean(new loomcase.meter.Test.Volts("C-OPS/3", "C-OPS/2", apart)), 0.01);
        // closed form: 5 V through 1 kohm into the input's 100 kohm beside the meter's 10 Mohm
        double input = 1 / (1 / 1e5 + 1 / 1e7);
        assertEquals(
                5 * input / (input + 1000),
                LARCH.mean(new loomcase.meter.Test.Volts("C-OPS/3", "C-OPS/2", apart.jump("C-OPS/1", "C-OPS/3", 1000))),
                0.01);
    }

    @Test
    void anOhmmeterOnALiveCircuitShowsNothingOfUse() {
        var live = new loomcase.meter.Test.Ohms("C-ECT/1", "C-ECT/2", LARCH.rest);
        assertTrue(LARCH.overRange(live));
    }

    @Test
    void aDropNeedsTheKeyOn() {
        var e = assertThrows(
                IllegalArgumentException.class, () -> new loomcase.meter.Test.Drop("C-BAT/1", "J1/1", Setup.off()));
        assertEquals("a drop from C-BAT/1 needs current: the key must be on", e.getMessage());
    }

    @Test
    void aTestSaysWhatToDo() {
        Setup s = Setup.off().unplug(List.of("J2", "C-ECT")).wiresAt(80);
        assertEquals(
                "ohms from J2/4 to C-ECT/1; key off; unplugged: C-ECT, J2; wires at 80 °C",
                new loomcase.meter.Test.Ohms("J2/4", "C-ECT/1", s).words());
        assertEquals(
                "ohms J2/4 C-ECT/1 @key-off -C-ECT -J2 80C", new loomcase.meter.Test.Ohms("J2/4", "C-ECT/1", s).id());
    }
}
