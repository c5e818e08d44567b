package loomcase.drill;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import loomcase.InputProblem;
import loomcase.journal.Digest;
import loomcase.journal.Fact;
import loomcase.model.PlaceId;

/** What a run says of the drill itself, kept as notes of a fixed form: which drill, hints, the claim, giving up. */
final class RunNote {
    /** How every note of this kind starts; a student's own note may not. */
    static final String MARK = "drill: ";

    private static final String FILE = MARK + "file ";
    private static final String DIGEST = " digest ";
    private static final String HINT = MARK + "hint ";
    private static final String CLAIM = MARK + "claims ";
    private static final String GAVE_UP = MARK + "gave up";
    private static final String BETWEEN = ", ";

    private RunNote() {}

    /** A line as the student reads it: the drill's own notes without their mark. */
    static String words(Fact fact) {
        return after(fact, MARK).orElseGet(fact::toString);
    }

    static Fact.Note file(String name, Digest digest) {
        return new Fact.Note(FILE + name + DIGEST + digest);
    }

    /** The name of the drill file in a run's second line. */
    static Optional<String> fileName(Fact fact) {
        return after(fact, FILE).map(t -> t.substring(0, Math.max(0, t.lastIndexOf(DIGEST))));
    }

    /** The digest of the drill file in a run's second line. */
    static Optional<Digest> digest(Fact fact) {
        return after(fact, FILE)
                .map(t -> t.substring(t.lastIndexOf(DIGEST) + DIGEST.length()))
                .map(Digest::new);
    }

    static Fact.Note hint(int number, String text) {
        return new Fact.Note(HINT + number + ": " + text);
    }

    static boolean isHint(Fact fact) {
        return after(fact, HINT).isPresent();
    }

    static Fact.Note claim(List<PlaceId> places) {
        return new Fact.Note(
                CLAIM + places.stream().map(p -> p.kind().word() + ":" + p.id()).collect(Collectors.joining(BETWEEN)));
    }

    /** The places that a line claims. */
    static Optional<List<PlaceId>> claimed(Fact fact) {
        return after(fact, CLAIM).map(t -> {
            List<PlaceId> out = new ArrayList<>();
            for (String each : t.split(BETWEEN)) out.add(place(each));
            return out;
        });
    }

    private static PlaceId place(String text) {
        String kind = text.substring(0, Math.max(0, text.indexOf(':')));
        PlaceId.Kind found = Arrays.stream(PlaceId.Kind.values())
                .filter(k -> k.word().equals(kind))
                .findFirst()
                .orElseThrow(() -> new InputProblem("claim '" + text + "' names no place"));
        return new PlaceId(found, text.substring(kind.length() + 1));
    }

    static Fact.Note gaveUp() {
        return new Fact.Note(GAVE_UP);
    }

    static boolean isGivingUp(Fact fact) {
        return fact instanceof Fact.Note n && n.text().equals(GAVE_UP);
    }

    private static Optional<String> after(Fact fact, String start) {
        return fact instanceof Fact.Note n && n.text().startsWith(start)
                ? Optional.of(n.text().substring(start.length()))
                : Optional.empty();
    }
}
