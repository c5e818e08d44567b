package loomcase.policy;

import java.util.List;
import java.util.stream.Stream;

/**
 * Everything that a claim says and shows, as the claim rules see it.
 *
 * @param claim the claim as a whole
 * @param codes each time the codes were read that the claim counts on
 * @param readings meter readings
 * @param works work done, cleared codes included, in the order of the journal
 * @param photos photos
 * @param parts lines of parts
 * @param labour lines of labour
 * @param access access steps that were opened
 * @param approvals what needs somebody's agreement, given or not
 */
public record ClaimFacts(
        ClaimCase claim,
        List<ClaimCodes> codes,
        List<ClaimReading> readings,
        List<ClaimWork> works,
        List<ClaimPhoto> photos,
        List<ClaimPart> parts,
        List<ClaimLabour> labour,
        List<ClaimAccess> access,
        List<ClaimApproval> approvals) {
    /** Sides of the repair. */
    public static final List<String> STAGES = List.of("before", "after");

    public ClaimFacts {
        codes = List.copyOf(codes);
        readings = List.copyOf(readings);
        works = List.copyOf(works);
        photos = List.copyOf(photos);
        parts = List.copyOf(parts);
        labour = List.copyOf(labour);
        access = List.copyOf(access);
        approvals = List.copyOf(approvals);
    }

    /** All facts in one list, for the rules. */
    List<Object> all() {
        return Stream.of(List.of(claim), codes, readings, works, photos, parts, labour, access, approvals)
                .<Object>flatMap(List::stream)
                .toList();
    }
}
