package loomcase.rank;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashSet;
import java.util.Set;
import loomcase.Crc32c;
import loomcase.predict.Dictionary;
import loomcase.predict.KeptBytes;

/**
 * Which evidence was ranked before, by a checksum of its text; the last {@value #MOST}. One taken for another costs time
 * only.
 */
record MetBefore(Set<Integer> checksums) {
    /** No operating point has a blank in its name. */
    static final String NAME = "complaints met";

    /** Changed whenever the form changes. */
    private static final int MAGIC = 0x4c434331;

    private static final int MOST = 500;

    /** Those that the dictionary has kept. */
    static MetBefore of(Dictionary dictionary) {
        return dictionary
                .get(NAME)
                .flatMap(bytes -> KeptBytes.read(bytes, MAGIC, in -> {
                    Set<Integer> out = new LinkedHashSet<>();
                    int n = in.whole();
                    for (int i = 0; i < n; i++) out.add(in.whole());
                    return new MetBefore(out);
                }))
                .orElse(new MetBefore(Set.of()));
    }

    boolean has(Evidence evidence) {
        return checksums.contains(checksum(evidence));
    }

    MetBefore with(Evidence evidence) {
        Set<Integer> out = new LinkedHashSet<>(checksums);
        out.add(checksum(evidence));
        while (out.size() > MOST) out.remove(out.iterator().next());
        return new MetBefore(out);
    }

    byte[] bytes() {
        KeptBytes.Writer out = new KeptBytes.Writer().number(checksums.size());
        checksums.forEach(out::number);
        return out.bytes(MAGIC);
    }

    private static int checksum(Evidence evidence) {
        byte[] text = evidence.toString().getBytes(StandardCharsets.UTF_8);
        return Crc32c.of(text, text.length);
    }
}
