package loomcase.j1939.log;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import loomcase.j1939.CanId;
import loomcase.j1939.Pgn;
import loomcase.j1939.TroubleMessage;

/**
 * Writes the log lines that a sender of trouble messages would leave, in the log file form of candump.
 *
 * <p>For demo logs and for tests that go there and back; nothing here is ever sent to a network.
 *
 * @param network interface name to write, without blanks and without '#'
 * @param packetGapSeconds time between two frames of one transfer, 0.05 to 0.2 by the standard
 */
public record DmEncoder(String network, double packetGapSeconds) {
    private static final String HEX = "0123456789ABCDEF";
    private static final int PRIORITY = 6;
    private static final int TRANSPORT_PRIORITY = 7;

    public DmEncoder {
        Objects.requireNonNull(network, "network");
        if (network.isEmpty() || network.chars().anyMatch(c -> c <= ' ' || c == '#' || c == '(' || c > '~')) {
            throw new IllegalArgumentException("network name '" + network + "' must be plain, as in can0");
        }
        if (!(packetGapSeconds >= 0)) {
            throw new IllegalArgumentException("packet gap " + packetGapSeconds + " s is below 0");
        }
    }

    /** A message to everybody: one frame, or a BAM if it is longer than a frame. */
    public List<String> toAll(double seconds, TroubleMessage.Kind kind, int source, TroubleMessage message) {
        byte[] body = message.bytes();
        if (body.length <= TroubleMessage.FRAME_BYTES) {
            return List.of(line(seconds, new CanId(PRIORITY, kind.pgn(), source, CanId.EVERYBODY), body));
        }
        List<String> lines = new ArrayList<>();
        lines.add(control(seconds, source, CanId.EVERYBODY, start(32, 0xFF, kind, body.length)));
        int packets = packets(body.length);
        for (int number = 1; number <= packets; number++) {
            lines.add(packet(seconds + number * packetGapSeconds, source, CanId.EVERYBODY, body, number));
        }
        return lines;
    }

    /** A message of more than one frame to one receiver, with the answers of the receiver. */
    public List<String> toOne(
            double seconds, TroubleMessage.Kind kind, int source, int destination, TroubleMessage message) {
        byte[] body = message.bytes();
        if (body.length <= TroubleMessage.FRAME_BYTES) {
            throw new IllegalArgumentException("a message of " + body.length + " bytes fits a frame; send it to all");
        }
        int packets = packets(body.length);
        List<String> lines = new ArrayList<>();
        double now = seconds;
        lines.add(control(now, source, destination, start(16, packets, kind, body.length)));
        for (int number = 1; number <= packets; number++) {
            now += packetGapSeconds;
            byte[] clear = start(17, 0xFF, kind, body.length);
            clear[1] = 1;
            clear[2] = (byte) number;
            clear[3] = (byte) 0xFF;
            lines.add(control(now, destination, source, clear));
            now += packetGapSeconds;
            lines.add(packet(now, source, destination, body, number));
        }
        lines.add(control(now + packetGapSeconds, destination, source, start(19, 0xFF, kind, body.length)));
        return lines;
    }

    /** Any frame as a line, {@code (12.345678) can0 18FECA00#00FF}. */
    public String line(double seconds, CanId id, byte[] data) {
        StringBuilder line = new StringBuilder(64);
        line.append(String.format(Locale.ROOT, "(%010.6f) %s %08X#", seconds, network, id.bits()));
        for (byte b : data) {
            line.append(HEX.charAt(b >> 4 & 15)).append(HEX.charAt(b & 15));
        }
        return line.toString();
    }

    private String control(double seconds, int source, int destination, byte[] data) {
        return line(seconds, new CanId(TRANSPORT_PRIORITY, Pgn.TRANSPORT_CONTROL, source, destination), data);
    }

    private String packet(double seconds, int source, int destination, byte[] body, int number) {
        byte[] data = new byte[TroubleMessage.FRAME_BYTES];
        Arrays.fill(data, (byte) 0xFF);
        data[0] = (byte) number;
        int offset = (number - 1) * Session.PACKET_BYTES;
        System.arraycopy(body, offset, data, 1, Math.min(Session.PACKET_BYTES, body.length - offset));
        return line(seconds, new CanId(TRANSPORT_PRIORITY, Pgn.TRANSPORT_DATA, source, destination), data);
    }

    private static byte[] start(int control, int limit, TroubleMessage.Kind kind, int size) {
        int pgn = kind.pgn();
        return new byte[] {
            (byte) control,
            (byte) size,
            (byte) (size >>> 8),
            (byte) packets(size),
            (byte) limit,
            (byte) pgn,
            (byte) (pgn >>> 8),
            (byte) (pgn >>> 16)
        };
    }

    private static int packets(int size) {
        return (size + Session.PACKET_BYTES - 1) / Session.PACKET_BYTES;
    }
}
