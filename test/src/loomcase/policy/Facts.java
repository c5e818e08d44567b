package loomcase.policy;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * Named facts that examples start from, and small edits of them: {@code FACT.FIELD=VALUE} sets a field (the values of a
 * list are joined by {@code +}, {@code -} stands for no value), {@code drop:FACT} takes a fact out. A fact held in reserve
 * comes in when an edit names it.
 */
record Facts(Map<String, Record> in, Map<String, Record> reserve) {
    /** @param edits separated by blanks; empty for none */
    Facts with(String edits) {
        Map<String, Record> edited = new LinkedHashMap<>(in);
        for (String edit : edits.isBlank() ? new String[0] : edits.strip().split("\\s+")) {
            if (edit.startsWith("drop:")) {
                if (edited.remove(edit.substring(5)) == null)
                    throw new IllegalArgumentException(edit + ": no such fact");
                continue;
            }
            String[] parts = edit.split("[.=]", 3);
            Record before = edited.containsKey(parts[0]) ? edited.get(parts[0]) : reserve.get(parts[0]);
            if (before == null || parts.length < 3) throw new IllegalArgumentException("cannot read edit " + edit);
            edited.put(parts[0], set(before, parts[1], parts[2].equals("-") ? "" : parts[2]));
        }
        return new Facts(edited, reserve);
    }

    <T> List<T> of(Class<T> kind) {
        return in.values().stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    private static Record set(Record fact, String field, String value) {
        RecordComponent[] components = fact.getClass().getRecordComponents();
        if (Stream.of(components).noneMatch(c -> c.getName().equals(field)))
            throw new IllegalArgumentException(fact.getClass().getSimpleName() + " has no field " + field);
        try {
            Object[] values = new Object[components.length];
            for (int i = 0; i < values.length; i++) {
                values[i] = components[i].getName().equals(field)
                        ? parse(components[i].getType(), value)
                        : components[i].getAccessor().invoke(fact);
            }
            Class<?>[] types =
                    Stream.of(components).map(RecordComponent::getType).toArray(Class<?>[]::new);
            return (Record) fact.getClass().getDeclaredConstructor(types).newInstance(values);
        } catch (ReflectiveOperationException e) {
            throw new IllegalArgumentException("cannot set " + field + " to " + value, e);
        }
    }

    private static Object parse(Class<?> type, String value) {
        if (type == int.class) return Integer.parseInt(value);
        if (type == double.class) return Double.parseDouble(value);
        if (type == boolean.class) {
            if (!value.equals("true") && !value.equals("false"))
                throw new IllegalArgumentException("not yes or no: " + value);
            return Boolean.parseBoolean(value);
        }
        if (type == List.class) return value.isEmpty() ? List.of() : Arrays.asList(value.split("\\+"));
        return value;
    }
}
