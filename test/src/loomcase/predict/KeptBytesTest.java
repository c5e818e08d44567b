package loomcase.predict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import loomcase.model.Edit;
import org.junit.jupiter.api.Test;

class KeptBytesTest {
    private static final int MAGIC = 7;

    private static final List<List<Edit>> LISTS = List.of(
            List.of(),
            List.of(new Edit.Series("wire:Ä1", 0.1 + 0.2)),
            List.of(
                    new Edit.Bridge("J1/1", "chassis", Double.MIN_VALUE),
                    new Edit.Source("J1/1", "J1/2", -12.5, 1e9),
                    new Edit.Value("ECT", Edit.Quantity.OHMS_FACTOR, Double.NaN),
                    new Edit.Value("ECT", Edit.Quantity.CELSIUS, -0.0),
                    new Edit.Dead("R5A"),
                    new Edit.Series("wire:Ä1", Double.MAX_VALUE)));

    private static byte[] written(List<List<Edit>> lists, String text) {
        KeptBytes.Writer out = new KeptBytes.Writer().number(lists.size());
        lists.forEach(out::edits);
        return out.text(text).number(Math.PI).bytes(MAGIC);
    }

    private static List<Object> read(KeptBytes.Reader in) {
        List<Object> out = new ArrayList<>();
        int n = in.whole();
        for (int i = 0; i < n; i++) out.add(in.edits());
        out.add(in.text());
        out.add(in.number());
        return out;
    }

    @Test
    void whatWasWrittenIsReadBackToTheLastBit() {
        List<Object> expected = new ArrayList<>(LISTS);
        expected.addAll(List.of("chassis", Math.PI));
        assertEquals(Optional.of(expected), KeptBytes.read(written(LISTS, "chassis"), MAGIC, KeptBytesTest::read));
    }

    @Test
    void manyListsOutgrowTheFirstRoom() {
        List<List<Edit>> many = new ArrayList<>();
        for (int i = 0; i < 20_000; i++) many.add(List.of(new Edit.Series("wire:W" + i, i + 1)));
        List<Object> back =
                KeptBytes.read(written(many, "end"), MAGIC, KeptBytesTest::read).orElseThrow();
        assertEquals(many, back.subList(0, many.size()));
        assertEquals("end", back.get(many.size()));
    }

    @Test
    void damagedBytesAndAnotherFormGiveNothing() {
        byte[] good = written(LISTS, "text");
        assertTrue(KeptBytes.read(good, MAGIC + 1, KeptBytesTest::read).isEmpty());
        Random random = new Random(5);
        for (int turn = 0; turn < 500; turn++) {
            byte[] bad = good.clone();
            if (turn % 4 == 0) bad = Arrays.copyOf(good, random.nextInt(good.length));
            else bad[random.nextInt(bad.length)] ^= (byte) (1 << random.nextInt(8));
            assertTrue(KeptBytes.read(bad, MAGIC, KeptBytesTest::read).isEmpty(), "turn " + turn);
        }
    }
}
