package loomcase.journal;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import loomcase.InputProblem;

/**
 * SHA-256 (FIPS 180-4) of some bytes.
 *
 * @param hex 64 lower-case hexadecimal digits
 */
public record Digest(String hex) {
    private static final int LENGTH = 64;

    /** Stands where no earlier line exists. */
    public static final Digest NONE = new Digest("0".repeat(LENGTH));

    public Digest {
        if (hex.length() != LENGTH || !hex.chars().allMatch(Digest::isDigit))
            throw new IllegalArgumentException("'" + hex + "' is not a digest; it has 64 digits 0 to 9 and a to f");
    }

    private static boolean isDigit(int c) {
        return c >= '0' && c <= '9' || c >= 'a' && c <= 'f';
    }

    // Written out: what Java makes for a record is linked at first use, which costs a short run milliseconds each.
    @Override
    public boolean equals(Object other) {
        return other instanceof Digest d && hex.equals(d.hex);
    }

    @Override
    public int hashCode() {
        return hex.hashCode();
    }

    /** Digest of bytes. */
    public static Digest of(byte[] bytes) {
        return new Digest(HexFormat.of().formatHex(sha256().digest(bytes)));
    }

    /** Digest of a text in UTF-8. */
    public static Digest of(String text) {
        return of(text.getBytes(StandardCharsets.UTF_8));
    }

    /**
     * Digest of a file, read piece by piece.
     *
     * @throws InputProblem when it cannot be read
     */
    public static Digest ofFile(Path file) {
        MessageDigest digest = sha256();
        byte[] piece = new byte[1 << 16];
        try (InputStream in = Files.newInputStream(file)) {
            for (int n = in.read(piece); n >= 0; n = in.read(piece)) digest.update(piece, 0, n);
        } catch (NoSuchFileException e) {
            throw new InputProblem(file + ": no such file", e);
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be read: " + e.getMessage(), e);
        }
        return new Digest(HexFormat.of().formatHex(digest.digest()));
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform must offer SHA-256", e);
        }
    }

    @Override
    public String toString() {
        return hex;
    }
}
