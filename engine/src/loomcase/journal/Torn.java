package loomcase.journal;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * The file beside a case that keeps the bytes of torn lines, one piece a line.
 *
 * <p>It is written before the case is cut, so that a kill between the two loses nothing; the piece is then kept twice.
 */
record Torn(Path caseFile) {
    static Path beside(Path caseFile) {
        return caseFile.resolveSibling(caseFile.getFileName() + ".torn");
    }

    void keep(byte[] piece) throws IOException {
        try (FileChannel channel =
                FileChannel.open(beside(caseFile), StandardOpenOption.CREATE, StandardOpenOption.APPEND)) {
            ByteBuffer buffer = ByteBuffer.allocate(piece.length + 1)
                    .put(piece)
                    .put((byte) '\n')
                    .flip();
            while (buffer.hasRemaining()) channel.write(buffer);
            channel.force(true);
        }
    }
}
