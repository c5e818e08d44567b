package loomcase.fit;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.model.Circuit;

/**
 * Whether a new harness fits in place of an old one, with everything that differs and what could not be compared.
 *
 * @param old the old harness
 * @param newName how the new one is called
 * @param neu the new harness, where more than a list is known
 * @param verdict the answer, as far as is known
 * @param differences worst first
 * @param notKnown what could not be compared
 * @param plugs which plug is which
 * @param transfers one sheet for each plug whose terminals move
 * @param cavities new cavity by old cavity, both {@code CONNECTOR/CAVITY}, of every circuit that both have
 */
public record FitResult(
        Circuit old,
        String newName,
        Optional<Circuit> neu,
        Verdict verdict,
        List<Difference> differences,
        List<Difference.NotKnown> notKnown,
        List<PlugMatch> plugs,
        List<Transfer> transfers,
        Map<String, String> cavities) {

    /** The answer. */
    public enum Verdict {
        FITS("fits"),
        FITS_WITH_TRANSFER("fits-with-transfer"),
        DOES_NOT_FIT("does-not-fit");

        private final String word;

        Verdict(String word) {
            this.word = word;
        }

        /** The word used in JSON. */
        public String word() {
            return word;
        }

        /** In plain words. */
        public String words() {
            return word.replace('-', ' ');
        }
    }

    /**
     * A plug of the old harness and its partner.
     *
     * @param sure how sure it is that they are the same plug
     * @param cavities new cavity by old cavity
     * @param extra new cavities whose circuit the old plug does not have
     */
    public record PlugMatch(Face old, Face neu, Sure sure, Map<String, String> cavities, List<String> extra) {
        public PlugMatch {
            cavities = Collections.unmodifiableMap(new LinkedHashMap<>(cavities));
            extra = List.copyOf(extra);
        }
    }

    /**
     * A mating face.
     *
     * @param carries how to tell the wire in each cavity that has one
     */
    public record Face(
            String id,
            String label,
            List<List<String>> rows,
            String keying,
            String colour,
            String latch,
            Map<String, String> carries) {
        public Face {
            carries = Collections.unmodifiableMap(new LinkedHashMap<>(carries));
        }
    }

    public FitResult {
        differences = List.copyOf(differences);
        notKnown = List.copyOf(notKnown);
        plugs = List.copyOf(plugs);
        transfers = List.copyOf(transfers);
        cavities = Collections.unmodifiableMap(new LinkedHashMap<>(cavities));
    }

    /** True when nothing that matters was left uncompared, or what is known rules the part out already. */
    public boolean settled() {
        return verdict == Verdict.DOES_NOT_FIT || notKnown.stream().noneMatch(Difference.NotKnown::matters);
    }

    /** The answer in plain words, never a bare "fits" while something that matters is not known. */
    public String answer() {
        return settled() ? verdict.words() : verdict.words() + ", as far as is known";
    }
}
