package loomcase.predict;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleConsumer;
import loomcase.model.Edit;
import org.junit.jupiter.api.Test;

class JointMemoryTest {
    private static final double[] HEALTHY = {0, 0.25, 0.5};

    private final Map<String, byte[]> kept = new HashMap<>();
    private final Dictionary dictionary = new Dictionary() {
        @Override
        public Optional<byte[]> get(String what) {
            return Optional.ofNullable(kept.get(what));
        }

        @Override
        public void put(String what, byte[] bytes) {
            kept.put(what, bytes);
        }
    };
    private final List<List<Edit>> solved = new ArrayList<>();

    private static List<Edit> edits(int n) {
        return List.of(new Edit.Series("wire:W" + n, n));
    }

    /** A row that depends on the edits alone, as a network's does. */
    private PointTable solve(List<List<Edit>> all, DoubleConsumer progress) {
        solved.addAll(all);
        PointTable.Builder out = new PointTable.Builder(all.size(), HEALTHY);
        for (List<Edit> e : all) {
            double n = ((Edit.Series) e.get(0)).ohms();
            if (n % 2 == 0) out.entry(0, 1 / n);
            out.entry(2, 1 / (n + 1));
            out.endRow(n % 3 != 0);
        }
        return out.build();
    }

    private static String text(PointTable t, int rows) {
        StringBuilder out = new StringBuilder();
        for (int r = 0; r < rows; r++) {
            PointRow row = t.row(r);
            out.append(row.settled());
            for (int i = row.from(); i < row.to(); i++)
                out.append(' ').append(row.watch()[i]).append('=').append(row.probability()[i]);
            out.append('\n');
        }
        return out.toString();
    }

    private String asked(JointMemory memory, Integer... numbers) {
        List<List<Edit>> all =
                List.of(numbers).stream().map(JointMemoryTest::edits).toList();
        return text(memory.table(all, share -> {}, this::solve), numbers.length);
    }

    private JointMemory memory() {
        return new JointMemory(dictionary, "idle", () -> HEALTHY);
    }

    @Test
    void rowsComeInTheOrderAskedAndNoneIsSolvedTwice() {
        JointMemory memory = memory();
        String first = asked(memory, 2, 3, 4);
        assertEquals(asked(new JointMemory(Dictionary.NONE, "idle", () -> HEALTHY), 2, 3, 4), first);
        solved.clear();
        assertEquals(first, asked(memory, 2, 3, 4));
        assertEquals(List.of(), solved);
        String mixed = asked(memory, 4, 5, 2, 5, 6);
        assertEquals(List.of(edits(5), edits(6)), solved);
        assertEquals(asked(new JointMemory(Dictionary.NONE, "idle", () -> HEALTHY), 4, 5, 2, 5, 6), mixed);
    }

    @Test
    void whatWasKeptIsTheSameInAnotherRunAndIsAddedTo() {
        JointMemory first = memory();
        String rows = asked(first, 2, 3, 4, 12);
        JointMemory beside = memory();
        asked(beside, 7);
        first.keep();
        beside.keep();
        solved.clear();
        JointMemory later = memory();
        assertEquals(rows, asked(later, 2, 3, 4, 12));
        asked(later, 7);
        assertEquals(List.of(), solved, "both runs' rows are there");
        kept.replaceAll((name, bytes) -> new byte[] {1, 2, 3});
        assertEquals(rows, asked(memory(), 2, 3, 4, 12), "damaged rows are solved again");
        assertEquals(4, solved.size());
    }

    @Test
    void rowsOfAnotherOperatingPointOrNumberOfWatchesAreNotTaken() {
        JointMemory first = memory();
        asked(first, 2);
        first.keep();
        solved.clear();
        asked(new JointMemory(dictionary, "loaded", () -> HEALTHY), 2);
        asked(new JointMemory(dictionary, "idle", () -> new double[2]), 2);
        assertEquals(2, solved.size());
    }

    @Test
    void onlyTheLastThousandsAreRemembered() {
        JointMemory memory = memory();
        for (int n = 1; n <= 3001; n++) asked(memory, n);
        solved.clear();
        asked(memory, 2, 3001);
        assertEquals(List.of(), solved);
        asked(memory, 1);
        assertEquals(List.of(edits(1)), solved, "used longest ago");
    }
}
