package loomcase.predict;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.function.DoubleConsumer;
import java.util.function.Supplier;
import loomcase.model.Edit;

/**
 * Rows solved for lists of edits beside the single faults at one operating point: sets of a common cause, pairs, plugs taken
 * apart. The last {@value #MOST} are remembered, and kept in a {@link Dictionary} when somebody asks for it, so that the
 * next command about the same complaint need not solve them again.
 *
 * <p>Bytes after {@link KeptBytes}'s opening: watches, rows (int each); of each row its edits, whether it is settled and
 * the number of its entries (int each), of each entry its watch (int) and probability (double).
 */
final class JointMemory {
    /** Changed whenever the form changes. */
    private static final int MAGIC = 0x4c434a31;

    private static final int MOST = 3000;

    private final Dictionary dictionary;
    private final String name;
    private final Supplier<double[]> healthy;
    private final Map<List<Edit>, PointRow> rows = new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<List<Edit>, PointRow> eldest) {
            return size() > MOST;
        }
    };
    private boolean loaded;
    private boolean changed;

    /**
     * @param operatingPoint its id
     * @param healthy probability of each watch's condition on a healthy engine
     */
    JointMemory(Dictionary dictionary, String operatingPoint, Supplier<double[]> healthy) {
        this.dictionary = dictionary;
        this.name = "joint " + operatingPoint;
        this.healthy = healthy;
    }

    /** The rows of these edits, solved where they are not remembered. */
    PointTable table(
            List<List<Edit>> all,
            DoubleConsumer progress,
            BiFunction<List<List<Edit>>, DoubleConsumer, PointTable> solve) {
        if (!loaded) load();
        List<List<Edit>> unknown = new LinkedHashSet<>(all)
                .stream().filter(edits -> !rows.containsKey(edits)).toList();
        Map<List<Edit>, PointRow> here = new LinkedHashMap<>();
        if (!unknown.isEmpty()) {
            PointTable solved = solve.apply(unknown, progress);
            for (int i = 0; i < unknown.size(); i++) here.put(unknown.get(i), solved.row(i));
            changed = true;
            if (unknown.size() == all.size()) {
                rows.putAll(here);
                return solved;
            }
        }
        PointTable.Builder out = new PointTable.Builder(all.size(), healthy.get());
        for (List<Edit> edits : all) {
            PointRow row = here.get(edits);
            copy(row == null ? rows.get(edits) : row, out);
        }
        rows.putAll(here);
        return out.build();
    }

    private static void copy(PointRow row, PointTable.Builder out) {
        for (int i = row.from(); i < row.to(); i++) out.entry(row.watch()[i], row.probability()[i]);
        out.endRow(row.settled());
    }

    private void load() {
        loaded = true;
        dictionary
                .get(name)
                .flatMap(bytes -> KeptBytes.read(bytes, MAGIC, this::rows))
                .ifPresent(rows::putAll);
    }

    /** Has the dictionary keep what is remembered, together with what another run has had it keep meanwhile. */
    void keep() {
        if (!changed) return;
        Map<List<Edit>, PointRow> mine = new LinkedHashMap<>(rows);
        load();
        rows.putAll(mine);
        changed = false;
        dictionary.put(name, bytes());
    }

    private byte[] bytes() {
        KeptBytes.Writer out =
                new KeptBytes.Writer().number(healthy.get().length).number(rows.size());
        rows.forEach((edits, row) -> {
            out.edits(edits).number(row.settled() ? 1 : 0).number(row.to() - row.from());
            for (int i = row.from(); i < row.to(); i++)
                out.number(row.watch()[i]).number(row.probability()[i]);
        });
        return out.bytes(MAGIC);
    }

    private Map<List<Edit>, PointRow> rows(KeptBytes.Reader in) {
        double[] usual = healthy.get();
        if (in.whole() != usual.length) throw new IllegalArgumentException("rows of another circuit");
        int n = in.whole();
        PointTable.Builder table = new PointTable.Builder(n, usual);
        List<List<Edit>> edits = new ArrayList<>(n);
        for (int r = 0; r < n; r++) {
            edits.add(in.edits());
            boolean settled = in.whole() == 1;
            int entries = in.whole();
            for (int i = 0; i < entries; i++) table.entry(in.whole(), in.number());
            table.endRow(settled);
        }
        PointTable made = table.build();
        Map<List<Edit>, PointRow> out = new LinkedHashMap<>();
        for (int r = 0; r < n; r++) out.put(edits.get(r), made.row(r));
        return out;
    }
}
