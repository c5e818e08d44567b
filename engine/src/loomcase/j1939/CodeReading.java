package loomcase.j1939;

import java.util.List;
import java.util.Objects;
import java.util.Optional;

/** What the bytes of a trouble code say about which code it is. */
public sealed interface CodeReading {
    /** The code, empty while the bytes allow more than one. */
    Optional<Code> code();

    /** Every code that the bytes allow, each once, in the order of the versions. */
    List<Code> codes();

    /** The candidates if they differ, else the one code they agree on. */
    static CodeReading among(List<Candidate> candidates) {
        long different = candidates.stream().map(Candidate::code).distinct().count();
        return different == 1 ? new Certain(candidates.get(0).code()) : new Ambiguous(candidates);
    }

    /** Only one code fits. */
    record Certain(Code known) implements CodeReading {
        public Certain {
            Objects.requireNonNull(known, "known");
        }

        @Override
        public Optional<Code> code() {
            return Optional.of(known);
        }

        @Override
        public List<Code> codes() {
            return List.of(known);
        }

        @Override
        public String toString() {
            return known.toString();
        }
    }

    /**
     * The conversion bit is set and the sender's layout is not known, so the SPN is one of several.
     *
     * @param candidates at least two different codes, with the method that gives each
     */
    record Ambiguous(List<Candidate> candidates) implements CodeReading {
        public Ambiguous {
            candidates = List.copyOf(candidates);
            if (candidates.stream().map(Candidate::code).distinct().count() < 2) {
                throw new IllegalArgumentException("an ambiguous code needs two different candidates: " + candidates);
            }
        }

        @Override
        public Optional<Code> code() {
            return Optional.empty();
        }

        @Override
        public List<Code> codes() {
            return candidates.stream().map(Candidate::code).distinct().toList();
        }

        @Override
        public String toString() {
            return String.join(" or ", codes().stream().map(Code::toString).toList());
        }
    }

    /** A code that the bytes allow, and the conversion method it supposes. */
    record Candidate(Code code, ConversionMethod method) {
        public Candidate {
            Objects.requireNonNull(code, "code");
            Objects.requireNonNull(method, "method");
        }
    }
}
