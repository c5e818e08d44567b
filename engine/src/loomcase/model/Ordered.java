package loomcase.model;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/** Copies of maps that keep their order: {@link Map#copyOf} would shuffle it anew in every run of the program. */
final class Ordered {
    private Ordered() {}

    static <K, V> Map<K, V> copy(Map<K, V> map) {
        return Collections.unmodifiableMap(new LinkedHashMap<>(map));
    }
}
