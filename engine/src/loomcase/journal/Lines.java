package loomcase.journal;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * The bytes of a case file cut at its line feeds.
 *
 * <p>Bytes after the last line feed are a torn line, unless they are a whole line that lacks only its line feed: a kill can
 * fall between the two, and the digest then proves that nothing is missing.
 *
 * @param lines whole lines without line feeds
 * @param torn bytes of the torn last line, usually none
 * @param feedMissing whether the last whole line lacks its line feed
 * @param end number of bytes up to the torn line
 */
record Lines(List<byte[]> lines, byte[] torn, boolean feedMissing, long end) {

    static Lines of(byte[] bytes) {
        List<byte[]> lines = new ArrayList<>();
        int start = 0;
        for (int i = 0; i < bytes.length; i++)
            if (bytes[i] == '\n') {
                lines.add(Arrays.copyOfRange(bytes, start, i));
                start = i + 1;
            }
        byte[] tail = Arrays.copyOfRange(bytes, start, bytes.length);
        if (EntryLine.of(tail).filter(EntryLine::whole).isEmpty()) return new Lines(lines, tail, false, start);
        lines.add(tail);
        return new Lines(lines, new byte[0], true, bytes.length);
    }

    /** What to say about the end of the file. */
    List<String> notices() {
        List<String> out = new ArrayList<>();
        if (feedMissing) out.add("line " + lines.size() + " had lost only its line end; nothing is missing");
        if (torn.length > 0)
            out.add("the last line is torn, as after a kill or a power cut, or somebody is writing it now; its "
                    + torn.length + " bytes are left out");
        return out;
    }

    /** A line as text, unless it is not UTF-8. */
    static Optional<String> text(byte[] line) {
        try {
            return Optional.of(StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(line))
                    .toString());
        } catch (CharacterCodingException e) {
            return Optional.empty();
        }
    }
}
