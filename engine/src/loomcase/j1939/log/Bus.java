package loomcase.j1939.log;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.j1939.CanId;
import loomcase.j1939.CodeReading;
import loomcase.j1939.Pgn;
import loomcase.j1939.TroubleMessage;

/** Everything heard on one network, by sender. */
final class Bus {
    private static final double RPM_PER_BIT = 0.125;
    private static final int CELSIUS_AT_ZERO = -40;
    /** Above this the high byte of a value says "error" or "not available". */
    private static final int LAST_VALID_BYTE = 0xFA;

    private final String network;
    private final ReadOptions options;
    private final SourceState.Budget budget;
    private final Warnings warnings;
    private final Transport transport;
    private final SourceState[] sources = new SourceState[256];
    private final Gauge[] rpm = new Gauge[256];
    private final Gauge[] celsius = new Gauge[256];

    private static final class Gauge {
        double last;
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        long samples;

        void take(double value) {
            last = value;
            least = Math.min(least, value);
            most = Math.max(most, value);
            samples++;
        }

        static Optional<Conditions.Range> range(Gauge gauge) {
            return gauge == null
                    ? Optional.empty()
                    : Optional.of(new Conditions.Range(gauge.last, gauge.least, gauge.most, gauge.samples));
        }
    }

    Bus(byte[] name, ReadOptions options, SourceState.Budget budget, Warnings warnings) {
        this.network = new String(name, StandardCharsets.ISO_8859_1);
        this.options = options;
        this.budget = budget;
        this.warnings = warnings;
        this.transport = new Transport(warnings, this::message);
    }

    /** One J1939 data frame. */
    void take(Frame frame) {
        switch (CanId.pgn(frame.id)) {
            case Pgn.TRANSPORT_CONTROL -> transport.control(frame);
            case Pgn.TRANSPORT_DATA -> transport.data(frame);
            case Pgn.DM1 -> single(TroubleMessage.Kind.DM1, frame);
            case Pgn.DM2 -> single(TroubleMessage.Kind.DM2, frame);
            case Pgn.ENGINE_CONTROLLER_1 -> {
                if (frame.length >= 5 && frame.at(4) <= LAST_VALID_BYTE) {
                    gauge(rpm, frame).take((frame.at(3) | frame.at(4) << 8) * RPM_PER_BIT);
                }
            }
            case Pgn.ENGINE_TEMPERATURE_1 -> {
                if (frame.length >= 1 && frame.at(0) <= LAST_VALID_BYTE) {
                    gauge(celsius, frame).take(frame.at(0) + CELSIUS_AT_ZERO);
                }
            }
            default -> {
                // Other parameter groups hold no trouble codes.
            }
        }
    }

    private void single(TroubleMessage.Kind kind, Frame frame) {
        if (frame.length < TroubleMessage.MIN_BYTES) {
            warnings.note(Warning.Kind.MESSAGE_MALFORMED, frame);
        } else {
            message(kind, CanId.source(frame.id), frame.data, frame.length, frame);
        }
    }

    private void message(TroubleMessage.Kind kind, int source, byte[] body, int length, Frame last) {
        boolean many = length > TroubleMessage.FRAME_BYTES;
        if (many && (length - 2) % 4 != 0) {
            warnings.note(Warning.Kind.MESSAGE_MALFORMED, last);
        }
        if (sources[source] == null) {
            sources[source] = new SourceState(source, options.olderMethod(source));
        }
        sources[source].message(kind, TroubleMessage.ofBytes(body, length), last, budget, warnings);
    }

    private static Gauge gauge(Gauge[] gauges, Frame frame) {
        int source = CanId.source(frame.id);
        if (gauges[source] == null) {
            gauges[source] = new Gauge();
        }
        return gauges[source];
    }

    void end() {
        transport.end();
    }

    List<SourceCodes> sources() {
        List<SourceCodes> list = new ArrayList<>();
        for (SourceState source : sources) {
            if (source != null) {
                SourceCodes codes = source.result(network);
                list.add(codes);
                for (CodeSeen seen : codes.codes()) {
                    if (seen.reading() instanceof CodeReading.Ambiguous) {
                        warnings.note(
                                Warning.Kind.UNKNOWN_LAYOUT, 0, "source " + codes.address() + ": " + seen.reading());
                    }
                }
            }
        }
        return list;
    }

    List<Conditions> conditions() {
        List<Conditions> list = new ArrayList<>();
        for (int source = 0; source < 256; source++) {
            if (rpm[source] != null || celsius[source] != null) {
                list.add(new Conditions(network, source, Gauge.range(rpm[source]), Gauge.range(celsius[source])));
            }
        }
        return list;
    }

    String network() {
        return network;
    }
}
