package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import loomcase.demo.DemoLogs;
import loomcase.demo.Harness;
import loomcase.demo.Planted;
import loomcase.intake.Intake;
import loomcase.j1939.Code;
import loomcase.j1939.log.LogReader;
import loomcase.model.PlaceId;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The whole way, from a recorded log to the suspects, for each planted fault of the reference harness. */
class PlantedShowsTest {
    private static final Harness H = Harness.LARCH;

    @TempDir
    private Path folder;

    static Stream<Planted> planted() {
        return Planted.all(H.circuit()).stream();
    }

    @ParameterizedTest
    @MethodSource("planted")
    void thePlantedPlaceLeadsAndEachSensorByItselfLoses(Planted p) throws IOException {
        List<Code> codes = p.codes(H.circuit(), H.policy());
        Path log = Files.write(
                folder.resolve("case.log"),
                DemoLogs.log(codes, Planted.counts(codes), p.name().hashCode()));
        Intake intake = Intake.fromLog(H.circuit(), LogReader.read(log), List.of());
        Set<Code> read =
                intake.evidence().codes().stream().map(Evidence.Seen::code).collect(Collectors.toSet());
        assertEquals(Set.copyOf(codes), read, "codes on the way through the log");
        assertEquals(p.operatingPoints(), intake.evidence().operatingPoints());

        Ranking ranking = H.ranker().rank(intake.evidence(), share -> {});
        Ranking.Suspect lead = ranking.suspects().get(0);
        Set<PlaceId> places =
                lead.places().stream().map(Ranking.PlaceShare::place).collect(Collectors.toSet());
        assertTrue(places.contains(p.place()), p.place() + " is not among " + lead.places() + " for " + codes);
        if (p.place().kind() == PlaceId.Kind.ENGINE)
            places.forEach(x -> assertFalse(
                    x.kind() == PlaceId.Kind.WIRE || x.kind() == PlaceId.Kind.BRANCH,
                    x + " leads for a true condition"));
        if (spns(codes).size() >= 2) eachDeviceLoses(ranking, codes, lead);
    }

    /** Every device that some code names is in the lead itself or among the losers, and each loser says what it lacks. */
    private static void eachDeviceLoses(Ranking ranking, List<Code> codes, Ranking.Suspect lead) {
        Set<String> blamed = new TreeSet<>();
        for (Code c : codes)
            H.circuit().watches().stream()
                    .filter(w -> w.spn() == c.spn() && !w.device().isEmpty())
                    .forEach(w -> blamed.add(w.device()));
        Set<String> lost = new TreeSet<>();
        for (Ranking.Loser l : ranking.losers()) {
            lost.add(l.place().id());
            assertTrue(l.timesLess() > 1, l.toString());
            assertTrue(!l.leaves().isEmpty() || !l.predictsButAbsent().isEmpty(), "no reason given for " + l);
        }
        lead.places().forEach(x -> lost.add(x.place().id()));
        blamed.removeAll(lost);
        assertEquals(Set.of(), blamed, "devices neither in the lead nor among the losers");
    }

    private static Set<Integer> spns(List<Code> codes) {
        return codes.stream().map(Code::spn).collect(Collectors.toSet());
    }
}
