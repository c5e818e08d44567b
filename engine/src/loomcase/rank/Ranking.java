package loomcase.rank;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import loomcase.j1939.Code;
import loomcase.meter.Subject;
import loomcase.model.Edit;
import loomcase.model.PlaceId;

/**
 * The answer of this stage: suspects with their reasons.
 *
 * @param codes the codes given, and how well the suspects explain each
 * @param suspects groups of hypotheses, most probable first
 * @param rollup probability that the fault lies in each branch, connector, splice, device …, most probable first
 * @param unlisted probability of all suspects too small to be listed; with the suspects' and the unexplained it makes 1
 * @param unexplained probability that nothing in the model explains the codes
 * @param hidden probability that, whatever suspect it is, there is a second fault beside it that no code gives away; a share
 *     of all of the above
 * @param losers the obvious answers that lose, with the reason
 * @param hypotheses how many hypotheses were weighed, pairs included
 */
public record Ranking(
        List<CodeStatus> codes,
        List<Suspect> suspects,
        List<PlaceShare> rollup,
        double unlisted,
        double unexplained,
        double hidden,
        List<Loser> losers,
        int hypotheses) {

    /** True when some code is there now, not only stored. */
    public boolean codesActive() {
        return codes.stream().anyMatch(c -> c.state() == Evidence.State.ACTIVE);
    }

    /** Two independent faults in words. */
    static String twoFaults(String one, String other) {
        return "two faults at once: " + one + "; and " + other;
    }

    /**
     * A code given.
     *
     * @param explained probability that it comes from a fault in the model rather than being a stray
     * @param known false when no watch of the circuit can set it
     */
    public record CodeStatus(
            Code code, String label, Evidence.State state, OptionalInt count, double explained, boolean known) {}

    /**
     * Hypotheses that the evidence cannot tell apart.
     *
     * @param rank from 1
     * @param probability of the group, 0 to 1
     * @param places where the fault may be, most probable first
     * @param words the group's most probable fault, in plain words
     * @param members hypotheses with their probability, most probable first
     * @param explains codes seen that it accounts for
     * @param leaves codes seen that it does not
     * @param predictsButAbsent codes it predicts that were looked for and are not there
     * @param evidence what each code says for or against it
     * @param tests what work done, then what each test made says for or against it
     * @param second ids of the members that are the second of two independent faults; empty where one fault is enough
     */
    public record Suspect(
            int rank,
            double probability,
            List<PlaceShare> places,
            String words,
            List<Member> members,
            List<Code> explains,
            List<Code> leaves,
            List<Code> predictsButAbsent,
            List<Piece> evidence,
            List<TestPiece> tests,
            Set<String> second) {
        public Suspect {
            places = List.copyOf(places);
            members = List.copyOf(members);
            explains = List.copyOf(explains);
            leaves = List.copyOf(leaves);
            predictsButAbsent = List.copyOf(predictsButAbsent);
            evidence = List.copyOf(evidence);
            tests = List.copyOf(tests);
            second = Set.copyOf(second);
        }

        /**
         * Of two faults each that the first may be with each that the second may be.
         *
         * @param least share of the whole posterior below which two are left out
         * @return with the probability of both, most probable first; empty where one fault is enough
         */
        public List<Member> together(double least) {
            Map<Boolean, List<Member>> halves =
                    members.stream().collect(Collectors.partitioningBy(m -> second.contains(m.id())));
            double all = probability / (sum(halves.get(false)) * sum(halves.get(true)));
            List<Member> out = new ArrayList<>();
            for (Member a : halves.get(false))
                for (Member b : halves.get(true)) {
                    double p = all * a.probability() * b.probability();
                    if (p >= least) out.add(Member.both(a, b, p));
                }
            return out.stream()
                    .sorted(Comparator.comparingDouble((Member m) -> -m.probability())
                            .thenComparing(Member::id))
                    .toList();
        }

        private static double sum(List<Member> half) {
            return half.stream().mapToDouble(Member::probability).sum();
        }

        /** True when it takes two independent faults. */
        public boolean twoFaults() {
            return !second.isEmpty();
        }

        /** The place to look at first. */
        public PlaceId place() {
            return places.get(0).place();
        }
    }

    /**
     * A place with the probability that the fault is there, 0 to 1.
     *
     * @param place the place
     * @param probability share of the whole posterior
     */
    public record PlaceShare(PlaceId place, double probability) {}

    /**
     * One hypothesis of a group.
     *
     * @param id its id
     * @param words the fault in plain words
     * @param place its place
     * @param probability share of the whole posterior
     * @param edits what it does to the circuit
     * @param subject the hypothesis as a test sees it
     */
    public record Member(
            String id, String words, PlaceId place, double probability, List<Edit> edits, Subject subject) {
        public Member {
            edits = List.copyOf(edits);
        }

        /** Two faults at once, in order of their ids. */
        static Member both(Member x, Member y, double probability) {
            boolean inOrder = x.id.compareTo(y.id) < 0;
            Member a = inOrder ? x : y;
            Member b = inOrder ? y : x;
            Subject subject = Subject.both(a.id, a.subject, b.id, b.subject);
            return new Member(
                    a.id + " + " + b.id, twoFaults(a.words, b.words), a.place, probability, subject.edits(), subject);
        }
    }

    /**
     * One test made, or work after which the codes were read.
     *
     * @param words what was done
     * @param outcome what it gave
     * @param likelihoodRatio how many times more probable that is under this suspect than on a healthy engine; of work the
     *     factor on the suspect's odds
     */
    public record TestPiece(String words, String outcome, double likelihoodRatio) {}

    /**
     * One piece of evidence.
     *
     * @param code the code
     * @param found active, stored or absent
     * @param likelihoodRatio how many times more probable it is under this suspect than on a healthy engine
     * @param predicted probability of the code under this suspect
     */
    public record Piece(Code code, String found, double likelihoodRatio, double predicted) {}

    /**
     * An obvious answer that loses.
     *
     * @param place the device blamed
     * @param words its most fitting fault
     * @param timesLess how many times less probable than the first suspect
     * @param leaves codes seen that it does not account for
     * @param predictsButAbsent codes it predicts that are not there
     */
    public record Loser(
            PlaceId place, String words, double timesLess, List<Code> leaves, List<Code> predictsButAbsent) {}

    public Ranking {
        codes = List.copyOf(codes);
        suspects = List.copyOf(suspects);
        rollup = List.copyOf(rollup);
        losers = List.copyOf(losers);
    }

    /** Roll-up as a map, for drawing. */
    public Map<PlaceId, Double> shares() {
        Map<PlaceId, Double> out = new java.util.LinkedHashMap<>();
        rollup.forEach(s -> out.put(s.place(), s.probability()));
        return out;
    }
}
