package loomcase.verdict;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import loomcase.j1939.Code;
import loomcase.meter.Subject;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.read.CircuitReader;
import loomcase.plan.NextTest;
import loomcase.policy.Policy;
import loomcase.policy.RemedyOutcome;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;

/** Posteriors and situations written by hand, so that a verdict can be checked without solving a network. */
final class Posteriors {
    static final Circuit TEACHING = CircuitReader.read(Path.of("circuits/teaching.json"));
    static final Circuit LARCH = CircuitReader.read(Path.of("circuits/larch-13.json"));
    private static final Policy POLICY = Policy.builtIn();

    /** The built-in repair rules. */
    static final Rulings.Rules RULES = (evidence, remedies) -> {
        RemedyOutcome said = POLICY.remedies(evidence, remedies);
        return new Rulings(said.rulings(), said.shopPolicyDiffers());
    };

    /** No rules, so that money alone decides. */
    static final Rulings.Rules LAWLESS = (evidence, remedies) -> Rulings.NONE;

    /** A code that is there now. */
    private static final Ranking.CodeStatus ACTIVE = new Ranking.CodeStatus(
            new Code(110, 3), "coolant temperature", Evidence.State.ACTIVE, OptionalInt.empty(), 1, true);

    private Posteriors() {}

    /**
     * A ranking of single faults; what is missing to 1 is unexplained.
     *
     * @param text {@code FAMILY@KIND:PLACE=PROBABILITY}, with {@code *WIRE+WIRE} behind the place for the wires hit, parted
     *     by semicolons
     */
    static Ranking ranking(String text) {
        List<Ranking.Suspect> suspects = new ArrayList<>();
        Map<PlaceId, Double> roll = new LinkedHashMap<>();
        double left = 1;
        for (String each : text.split(";")) {
            String family = each.substring(0, each.indexOf('@')).strip();
            String where = each.substring(each.indexOf('@') + 1, each.lastIndexOf('='));
            double p = Double.parseDouble(each.substring(each.lastIndexOf('=') + 1));
            String[] hit = where.contains("*")
                    ? where.substring(where.indexOf('*') + 1).split("\\+")
                    : new String[0];
            PlaceId place = place(where.contains("*") ? where.substring(0, where.indexOf('*')) : where);
            List<Edit> edits = new ArrayList<>();
            for (String w : hit) edits.add(new Edit.Series(Names.wire(w), Edit.OPEN_OHMS));
            Subject subject = new Subject(family, List.of(place), family.equals("contact.fretted"), edits);
            Ranking.Member m = new Ranking.Member(family + " " + place.id(), each.strip(), place, p, edits, subject);
            suspects.add(suspect(
                    suspects.size() + 1,
                    p,
                    List.of(new Ranking.PlaceShare(place, p)),
                    each.strip(),
                    List.of(m),
                    Set.of()));
            roll.merge(place, p, Double::sum);
            left -= p;
        }
        return new Ranking(
                List.of(ACTIVE),
                suspects,
                roll.entrySet().stream()
                        .map(e -> new Ranking.PlaceShare(e.getKey(), e.getValue()))
                        .toList(),
                0,
                Math.max(0, left),
                0,
                List.of(),
                suspects.size());
    }

    /** A suspect of whom nothing is known but where and how probable. */
    private static Ranking.Suspect suspect(
            int rank,
            double probability,
            List<Ranking.PlaceShare> places,
            String words,
            List<Ranking.Member> members,
            Set<String> second) {
        return new Ranking.Suspect(
                rank,
                probability,
                places,
                words,
                members,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                second);
    }

    /**
     * A ranking with two faults at once before single ones.
     *
     * @param atOnce probability of the pair
     * @param first what its first fault may be, written as single faults with shares that add up to 1
     * @param second the same of its second fault
     * @param alone single faults as {@link #ranking} takes them
     */
    static Ranking twoFaults(double atOnce, String first, String second, String alone) {
        Ranking singles = ranking(alone);
        List<Ranking.Member> members = new ArrayList<>();
        Set<String> ids = new java.util.TreeSet<>();
        for (String half : List.of(first, second))
            for (Ranking.Suspect s : ranking(half).suspects()) {
                Ranking.Member m = s.members().get(0);
                members.add(new Ranking.Member(
                        m.id(), m.words(), m.place(), atOnce * m.probability(), m.edits(), m.subject()));
                if (half.equals(second)) ids.add(m.id());
            }
        List<Ranking.PlaceShare> places = members.stream()
                .map(m -> new Ranking.PlaceShare(m.place(), m.probability()))
                .toList();
        List<Ranking.Suspect> suspects =
                new ArrayList<>(List.of(suspect(1, atOnce, places, first + " and " + second, members, ids)));
        for (Ranking.Suspect s : singles.suspects())
            suspects.add(suspect(suspects.size() + 1, s.probability(), s.places(), s.words(), s.members(), Set.of()));
        List<Ranking.PlaceShare> roll = new ArrayList<>(singles.rollup());
        roll.addAll(places);
        return new Ranking(
                List.of(ACTIVE),
                suspects,
                roll,
                0,
                Math.max(0, singles.unexplained() - atOnce),
                0,
                List.of(),
                suspects.size());
    }

    /** A place written {@code KIND:ID}. */
    static PlaceId place(String text) {
        String kind = text.substring(0, text.indexOf(':'));
        for (PlaceId.Kind k : PlaceId.Kind.values())
            if (k.word().equals(kind)) return new PlaceId(k, text.substring(text.indexOf(':') + 1));
        throw new IllegalArgumentException("no kind of place " + kind);
    }

    /**
     * A situation with something measured, unless {@code seen} is {@code codes only}.
     *
     * @param seen {@code FINDING@KIND:PLACE}, with {@code /METRES} for a spot on a branch, parted by semicolons
     * @param repaired places repaired before, {@code KIND:PLACE}, parted by semicolons
     */
    static Situation situation(Ranking ranking, String seen, String repaired) {
        if (seen.equals("codes only")) return Situation.codesOnly(ranking);
        List<Sighting> sightings = new ArrayList<>();
        for (String s : seen.isBlank() ? new String[0] : seen.split(";")) {
            String finding = s.substring(0, s.indexOf('@')).strip();
            String where = s.substring(s.indexOf('@') + 1);
            boolean spot = where.startsWith("branch:") && where.contains("/");
            OptionalDouble metres = spot
                    ? OptionalDouble.of(Double.parseDouble(where.substring(where.indexOf('/') + 1)))
                    : OptionalDouble.empty();
            sightings.add(new Sighting(place(spot ? where.substring(0, where.indexOf('/')) : where), metres, finding));
        }
        List<PlaceId> before = new ArrayList<>();
        for (String r : repaired.isBlank() ? new String[0] : repaired.split(";")) before.add(place(r.strip()));
        return new Situation(
                ranking, Set.of(), sightings, before, List.of(), Set.of(), 2, 1, Math.max(1, sightings.size()));
    }

    static VerdictMaker maker(Circuit circuit, Rulings.Rules rules) {
        return new VerdictMaker(
                circuit, new Layout(circuit), RepairCosts.builtIn(), VerdictMaker.rates(circuit), rules);
    }

    /** A test of so many minutes that needs no access. */
    static NextTest test(double minutes) {
        loomcase.meter.Test look = new loomcase.meter.Test.Look(new PlaceId(PlaceId.Kind.BRANCH, "any"));
        return new NextTest(look, minutes, minutes, minutes, List.of(), List.of(), List.of(), "");
    }

    /** Prospects of a test that tells every hypothesis from every other. */
    static final TestWorth.Prospects PERFECT = (test, subjects, weights) -> {
        List<List<Double>> out = new ArrayList<>();
        for (int o = 0; o < subjects.size(); o++) {
            List<Double> given = new ArrayList<>();
            for (int h = 0; h < subjects.size(); h++) given.add(h == o ? 1.0 : 0.0);
            out.add(given);
        }
        return out;
    };

    static Optional<Verdict.Weighed> of(Verdict v, String option) {
        return v.options().stream()
                .filter(w -> w.remedy().option().equals(option))
                .findFirst();
    }
}
