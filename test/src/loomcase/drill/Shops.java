package loomcase.drill;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.j1939.Code;
import loomcase.journal.Digest;
import loomcase.journal.Fact;

/** Circuits with what was solved about them, shared by the drill tests. */
final class Shops {
    static final Casework CASEWORK = new Casework(Shop.BUILT_IN);
    static final Bench TEACHING = CASEWORK.circuit(Path.of("circuits/teaching.json"));
    static final char[] PASSPHRASE = "open sesame".toCharArray();

    /** A circuit file that is never read. */
    static final Fact.CircuitFile NOWHERE = new Fact.CircuitFile("c.json", "c", Digest.NONE);

    private Shops() {}

    static Bench larch() {
        return CASEWORK.circuit(Path.of("circuits/larch-13.json"));
    }

    /** The teaching engine with one fault that is there in this way. */
    static Truth truth(String id, Showing showing, long seed) {
        return new Truth(seed, List.of(new Truth.Fault(id, List.of(), showing)), List.of());
    }

    static Workshop workshop(Truth truth) {
        Engine engine = new Engine(TEACHING, truth);
        List<Fact.ReadCode> codes = engine.first(List.of("key-on", "idle-warm"), truth.strays());
        if (codes.isEmpty())
            codes = List.of(new Fact.ReadCode(new Code(110, 3), java.util.OptionalInt.of(1), Fact.State.STORED));
        Fact.Codes first = new Fact.Codes(codes, List.of("key-on", "idle-warm"), Optional.empty(), Optional.empty());
        return new Workshop(TEACHING, new Drill(NOWHERE, "lamp on", first, "", Limits.NONE), truth);
    }
}
