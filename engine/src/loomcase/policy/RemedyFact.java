package loomcase.policy;

import java.util.List;
import java.util.Objects;

/**
 * One way of putting the fault right at one place, as the repair rules see it. What nobody has seen or recorded is said as
 * nothing: {@code false}, zero, or an empty list.
 *
 * @param id id of the remedy, unique within one verdict
 * @param option what is done: one of {@link #OPTIONS}
 * @param placeKind kind of place it is done at, as in circuit files: cavity, connector, splice, wire, branch, …
 * @param place id of that place
 * @param probability probability that the fault lies where this remedy cures it, 0 to 1
 * @param circuits circuits that it repairs, one by one; 0 where it replaces a whole part
 * @param newSplices most splices that it puts into one wire
 * @param splicesAfter most splices in one wire segment between two plugs once it is done
 * @param earlierRepairs repairs recorded in the same branch before this one
 * @param metresToTermination shortest distance from a new splice to a plug, clip or branching; infinite without a splice
 * @param slackMetres wire that can be given away at the plug; infinite where none is cut
 * @param carries kinds of circuit that it touches, from {@link CircuitKinds#ALL}
 * @param twisted it touches a twisted pair
 * @param shielded it touches a shielded wire
 * @param boosted it touches a wire with a driver's boosted voltage
 * @param fused every wire that it touches has a fuse upstream
 * @param noSpliceAllowed it would cut a wire that the circuit file says may not be spliced
 * @param vibration the zone shakes: engine-mounted
 * @param flexes the place moves in use, as across a cab or axle joint
 * @param zoneCelsius highest temperature of the zone, degrees Celsius
 * @param controlUnitPlug the place is a control-unit plug or in it
 * @param corrodedCavities cavities of the same plug in which corrosion was seen
 * @param findings what was seen at the place or on its branch, in the journal's words, from {@link #FINDINGS}
 */
public record RemedyFact(
        String id,
        String option,
        String placeKind,
        String place,
        double probability,
        int circuits,
        int newSplices,
        int splicesAfter,
        int earlierRepairs,
        double metresToTermination,
        double slackMetres,
        List<String> carries,
        boolean twisted,
        boolean shielded,
        boolean boosted,
        boolean fused,
        boolean noSpliceAllowed,
        boolean vibration,
        boolean flexes,
        double zoneCelsius,
        boolean controlUnitPlug,
        int corrodedCavities,
        List<String> findings) {
    /** The options there are, from the smallest work to the largest, then those at the ends of the harness. */
    public static final List<String> OPTIONS = List.of(
            "monitor",
            "reseat",
            "terminal",
            "pigtail",
            "splice-repair",
            "overlay-wire",
            "branch-section",
            "full-harness",
            "fuse",
            "device",
            "control-unit");

    /** What can be seen, in the journal's words. */
    public static final List<String> FINDINGS = List.of(
            "clean",
            "chafe",
            "cut",
            "melted",
            "pinched",
            "broken-strands",
            "green-copper",
            "oil-in-plug",
            "water-in-plug",
            "coolant-in-plug",
            "pushed-out-terminal",
            "spread-terminal",
            "bent-pin",
            "burnt-terminal",
            "missing-seal",
            "loose-latch",
            "not-plugged-in",
            "blown-fuse",
            "loose-stud",
            "missing-clip",
            "earlier-repair");

    public RemedyFact {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(place, "place");
        Objects.requireNonNull(placeKind, "placeKind");
        Listed.require("option", option, OPTIONS);
        if (!(probability >= 0 && probability <= 1))
            throw new IllegalArgumentException("probability is " + probability + "; allowed is 0 to 1");
        carries.forEach(CircuitKinds::require);
        carries = List.copyOf(carries);
        findings.forEach(finding -> Listed.require("finding", finding, FINDINGS));
        findings = List.copyOf(findings);
    }

    /** Whether a circuit of this kind is touched. */
    public boolean touches(String circuitKind) {
        CircuitKinds.require(circuitKind);
        return carries.contains(circuitKind);
    }

    /** Whether this was seen at the place or on its branch. */
    public boolean found(String finding) {
        Listed.require("finding", finding, FINDINGS);
        return findings.contains(finding);
    }
}
