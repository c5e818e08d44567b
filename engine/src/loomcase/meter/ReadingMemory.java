package loomcase.meter;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import loomcase.Once;
import loomcase.model.Edit;
import loomcase.predict.Dictionary;
import loomcase.predict.KeptBytes;

/**
 * Predicted readings by test and edits, kept in a {@link Dictionary} when somebody asks for it.
 *
 * <p>Bytes after {@link KeptBytes}'s opening: tests (int); of each test its text, the number of its readings (int), of each
 * reading its edits, mean and spread. May be shared between threads.
 */
final class ReadingMemory {
    /** Changed whenever the form changes. */
    private static final int MAGIC = 0x4c434d31;

    private static final String NAME = "readings predicted";

    /** Tests remembered; all are forgotten when there are more. */
    private static final int MOST_TESTS = 300;

    /**
     * Readings of one test that are kept on disk. A test that is proposed has one for each suspect, far fewer; of one that was
     * made, and weighed by everything, any that fit are kept.
     */
    private static final int MOST_KEPT = 200;

    private static final int MOST_TESTS_KEPT = 400;

    private final Dictionary dictionary;
    private final Once<Map<String, Map<List<Edit>, NumericPrediction.Value>>> before;
    private final Map<Test.Numeric, Map<List<Edit>, NumericPrediction.Value>> known = new ConcurrentHashMap<>();
    private volatile boolean changed;

    ReadingMemory(Dictionary dictionary) {
        this.dictionary = dictionary;
        this.before = new Once<>(this::load);
    }

    NumericPrediction.Value get(Test.Numeric test, List<Edit> edits, Supplier<NumericPrediction.Value> predict) {
        if (known.size() > MOST_TESTS) known.clear();
        Map<List<Edit>, NumericPrediction.Value> values = known.computeIfAbsent(
                test, t -> new ConcurrentHashMap<>(before.get().getOrDefault(t.toString(), Map.of())));
        NumericPrediction.Value value = values.get(edits);
        if (value != null) return value;
        NumericPrediction.Value made = predict.get();
        values.put(edits, made);
        changed = true;
        return made;
    }

    private Map<String, Map<List<Edit>, NumericPrediction.Value>> load() {
        return dictionary
                .get(NAME)
                .flatMap(bytes -> KeptBytes.read(bytes, MAGIC, ReadingMemory::values))
                .orElse(Map.of());
    }

    private static Map<String, Map<List<Edit>, NumericPrediction.Value>> values(KeptBytes.Reader in) {
        Map<String, Map<List<Edit>, NumericPrediction.Value>> out = new LinkedHashMap<>();
        int tests = in.whole();
        for (int t = 0; t < tests; t++) {
            Map<List<Edit>, NumericPrediction.Value> values = new LinkedHashMap<>();
            out.put(in.text(), values);
            int n = in.whole();
            for (int i = 0; i < n; i++) values.put(in.edits(), new NumericPrediction.Value(in.number(), in.number()));
        }
        return out;
    }

    /** Has the dictionary keep what is remembered, together with what another run has had it keep meanwhile. */
    void keep() {
        if (!changed) return;
        changed = false;
        Map<String, Map<List<Edit>, NumericPrediction.Value>> all = new LinkedHashMap<>();
        known.forEach((test, values) -> all.put(test.toString(), values));
        load().forEach((test, values) -> {
            if (all.size() < MOST_TESTS_KEPT || all.containsKey(test)) all.merge(test, values, ReadingMemory::together);
        });
        KeptBytes.Writer out = new KeptBytes.Writer().number(all.size());
        all.forEach((test, values) -> {
            out.text(test).number(Math.min(MOST_KEPT, values.size()));
            values.entrySet().stream().limit(MOST_KEPT).forEach(e -> out.edits(e.getKey())
                    .number(e.getValue().mean())
                    .number(e.getValue().spread()));
        });
        dictionary.put(NAME, out.bytes(MAGIC));
    }

    private static Map<List<Edit>, NumericPrediction.Value> together(
            Map<List<Edit>, NumericPrediction.Value> a, Map<List<Edit>, NumericPrediction.Value> b) {
        Map<List<Edit>, NumericPrediction.Value> out = new LinkedHashMap<>(a);
        b.forEach(out::putIfAbsent);
        return out;
    }
}
