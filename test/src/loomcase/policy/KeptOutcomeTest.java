package loomcase.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class KeptOutcomeTest {
    private static final PolicyOutcome OUTCOME = new PolicyOutcome(
            List.of(new Mask(100, 4, 100, 2, 0.25, "mask-rule", "because, with ü and ≤")),
            List.of(
                    new FmiReading(CircuitKinds.ALL.get(0), 3, 3, 0.75, "read-rule", "judgement"),
                    new FmiReading(CircuitKinds.ALL.get(0), 3, 2, 0.25, "read-rule", "judgement")),
            List.of(new Caution("C1", "hot", "hot-rule", "common practice, no source")),
            List.of(new TestRuling("probe", true, "never", "probe-rule", "judgement")),
            true,
            List.of("hot-rule", "mask-rule", "probe-rule", "read-rule"));

    @Test
    void whatIsReadBackIsWhatWasWritten() {
        assertEquals(Optional.of(OUTCOME), KeptOutcome.of(KeptOutcome.bytes(OUTCOME)));
    }

    @Test
    void aDamagedByteAnywhereIsNoticed() {
        byte[] whole = KeptOutcome.bytes(OUTCOME);
        for (int i = 0; i < whole.length; i++) {
            byte[] damaged = whole.clone();
            damaged[i] ^= 4;
            assertFalse(KeptOutcome.of(damaged).isPresent(), "byte " + i);
        }
        for (int n = 0; n < whole.length; n++)
            assertFalse(KeptOutcome.of(Arrays.copyOf(whole, n)).isPresent(), n + " bytes");
    }
}
