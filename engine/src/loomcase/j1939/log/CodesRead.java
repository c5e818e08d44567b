package loomcase.j1939.log;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What a log says.
 *
 * @param sources senders of DM1 or DM2, by network name, then address
 * @param conditions senders of engine speed or coolant temperature, in the same order
 * @param warnings what could not be used, one entry a kind, in the order of {@link Warning.Kind}
 * @param frames frames recognised, by sort
 * @param lines lines of the log, the last one counted even without a line end
 * @param firstSeconds time stamp of the first frame, empty in a log without stamps
 * @param lastSeconds time stamp of the last frame
 */
public record CodesRead(
        List<SourceCodes> sources,
        List<Conditions> conditions,
        List<Warning> warnings,
        FrameCounts frames,
        long lines,
        OptionalDouble firstSeconds,
        OptionalDouble lastSeconds) {

    public CodesRead {
        sources = List.copyOf(sources);
        conditions = List.copyOf(conditions);
        warnings = List.copyOf(warnings);
        Objects.requireNonNull(frames, "frames");
    }

    /** The warning of a kind, if there was cause for it. */
    public Optional<Warning> warning(Warning.Kind kind) {
        return warnings.stream().filter(warning -> warning.kind() == kind).findFirst();
    }
}
