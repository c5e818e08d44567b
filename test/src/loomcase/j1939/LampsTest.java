package loomcase.j1939;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class LampsTest {
    @Test
    void eachLampHasItsTwoBitsInBothBytes() {
        // Source: lamp order and flash table (off 0,3; on 1,3; slow 1,0; fast 1,1; not available 3,3) in
        // juergenH87/python-can-j1939 j1939/diagnostic_messages.py, MIT.
        Lamps lamps = Lamps.ofBytes(0b01_01_00_11, 0b00_01_11_11);
        assertEquals(new Lamp(Lamp.State.NOT_AVAILABLE, Lamp.Flash.NONE), lamps.protect());
        assertEquals(Lamp.OFF, lamps.amberWarning());
        assertEquals(new Lamp(Lamp.State.ON, Lamp.Flash.FAST), lamps.redStop());
        assertEquals(new Lamp(Lamp.State.ON, Lamp.Flash.SLOW), lamps.malfunction());
        assertTrue(lamps.malfunction().lit());
        assertFalse(lamps.protect().lit());
    }

    @Test
    void everyPairOfBytesComesBack() {
        for (int state = 0; state < 256; state++) {
            for (int flash = 0; flash < 256; flash++) {
                Lamps lamps = Lamps.ofBytes(state, flash);
                assertEquals(state, lamps.stateByte());
                assertEquals(flash, lamps.flashByte());
            }
        }
    }
}
