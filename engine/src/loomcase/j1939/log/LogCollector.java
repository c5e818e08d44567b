package loomcase.j1939.log;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import loomcase.j1939.CanId;

/** Takes the lines of a log one by one and gathers what they say. */
final class LogCollector {
    /** Only junk names more interfaces; it bounds the memory. */
    private static final int MAX_NETWORKS = 8;
    /** Frames of two networks may be written slightly out of order; more than this is a jump. */
    private static final long JUMP_NANOS = 1_000_000_000L;
    /** A log in which one stamp in this many falls was not written with rising stamps. */
    private static final int FALLING_SHARE = 10;

    private final LineParser parser = new LineParser();
    private final Frame frame = new Frame();
    private final Warnings warnings = new Warnings();
    private final SourceState.Budget budget = new SourceState.Budget();
    private final ReadOptions options;
    private final List<Bus> buses = new ArrayList<>();
    private final List<byte[]> names = new ArrayList<>();
    private final long[] sorts = new long[Frame.Sort.values().length];
    private long foreign;
    private long lines;
    private int lastBus;

    private OptionalDouble firstSeconds = OptionalDouble.empty();
    private boolean stamped;
    private long lastNanos;
    private long stamps;
    private long falling;

    LogCollector(ReadOptions options) {
        this.options = options;
    }

    /** One line, without its line end. */
    void line(byte[] text, int from, int to) {
        lines++;
        frame.text = text;
        frame.from = from;
        frame.to = to;
        frame.line = lines;
        Frame.Sort sort = parser.parse(frame);
        sorts[sort.ordinal()]++;
        switch (sort) {
            case DATA -> data();
            case STANDARD -> warnings.note(Warning.Kind.NOT_J1939, frame);
            case FLEXIBLE -> warnings.note(Warning.Kind.CAN_FD, frame);
            case DROPPED -> warnings.note(Warning.Kind.FRAMES_DROPPED, frame);
            case TRUNCATED -> warnings.note(Warning.Kind.TRUNCATED_FRAME, frame);
            case UNREADABLE -> warnings.note(Warning.Kind.UNREADABLE_LINE, frame);
            default -> {
                // Blank lines, remote requests and error frames are counted, no more.
            }
        }
    }

    /** A line too long for any frame; only its beginning is given. */
    void longLine(byte[] text, int from, int to) {
        lines++;
        frame.text = text;
        frame.from = from;
        frame.to = to;
        frame.line = lines;
        sorts[Frame.Sort.UNREADABLE.ordinal()]++;
        warnings.note(Warning.Kind.UNREADABLE_LINE, frame);
    }

    private void data() {
        if (frame.timed) {
            stamp();
        }
        if (CanId.foreign(frame.id)) {
            foreign++;
            warnings.note(Warning.Kind.NOT_J1939, frame);
            return;
        }
        int bus = bus();
        if (bus < 0) {
            warnings.note(Warning.Kind.TOO_MANY_NETWORKS, frame);
        } else {
            buses.get(bus).take(frame);
        }
    }

    private void stamp() {
        if (!stamped) {
            firstSeconds = frame.seconds();
            stamped = true;
        } else if (frame.nanos < lastNanos) {
            falling++;
            if (frame.nanos < lastNanos - JUMP_NANOS) {
                warnings.note(Warning.Kind.TIME_BACKWARDS, frame);
            }
        }
        lastNanos = frame.nanos;
        stamps++;
    }

    /** Index of the network named in the frame, or -1 where there are too many. */
    private int bus() {
        if (lastBus < names.size() && named(lastBus)) {
            return lastBus;
        }
        for (int i = 0; i < names.size(); i++) {
            if (named(i)) {
                lastBus = i;
                return i;
            }
        }
        if (names.size() == MAX_NETWORKS) {
            return -1;
        }
        byte[] name = Arrays.copyOfRange(frame.text, frame.networkFrom, frame.networkTo);
        names.add(name);
        buses.add(new Bus(name, options, budget, warnings));
        lastBus = names.size() - 1;
        return lastBus;
    }

    private boolean named(int index) {
        byte[] name = names.get(index);
        return Arrays.equals(name, 0, name.length, frame.text, frame.networkFrom, frame.networkTo);
    }

    long lines() {
        return lines;
    }

    List<Warning> warnings() {
        return warnings.list();
    }

    FrameCounts frames() {
        return new FrameCounts(
                sorts[Frame.Sort.DATA.ordinal()] - foreign,
                sorts[Frame.Sort.STANDARD.ordinal()] + foreign,
                sorts[Frame.Sort.REMOTE.ordinal()],
                sorts[Frame.Sort.ERROR.ordinal()],
                sorts[Frame.Sort.FLEXIBLE.ordinal()]);
    }

    /** To be called once, after the last line. */
    CodesRead result() {
        List<SourceCodes> sources = new ArrayList<>();
        List<Conditions> conditions = new ArrayList<>();
        buses.sort(Comparator.comparing(Bus::network));
        for (Bus bus : buses) {
            bus.end();
            sources.addAll(bus.sources());
            conditions.addAll(bus.conditions());
        }
        if (sources.isEmpty()) {
            warnings.note(Warning.Kind.NO_TROUBLE_MESSAGES, 0, "");
        }
        if (falling > 0 && falling >= stamps / FALLING_SHARE) {
            warnings.note(
                    Warning.Kind.TIME_BACKWARDS, 0, "they look relative; record with absolute stamps, candump -t a");
        }
        OptionalDouble lastSeconds = stamped ? OptionalDouble.of(Frame.seconds(lastNanos)) : OptionalDouble.empty();
        return new CodesRead(sources, conditions, warnings.list(), frames(), lines, firstSeconds, lastSeconds);
    }
}
