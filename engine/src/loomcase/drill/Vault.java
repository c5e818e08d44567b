package loomcase.drill;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Arrays;
import java.util.HexFormat;
import javax.crypto.AEADBadTagException;
import javax.crypto.Cipher;
import javax.crypto.SecretKeyFactory;
import javax.crypto.spec.GCMParameterSpec;
import javax.crypto.spec.PBEKeySpec;
import javax.crypto.spec.SecretKeySpec;
import loomcase.InputProblem;

/**
 * Seals bytes with AES-256 in Galois/Counter Mode (NIST SP 800-38D) under a content key drawn anew for each drill.
 *
 * <p>The content key is wrapped twice: with a key from the instructor's passphrase by PBKDF2 with HMAC-SHA-256 (RFC 8018),
 * and with a key that stands in this program, so that a student can play without the passphrase. <b>So the seal keeps the
 * answer from whoever opens the file, not from someone who takes the program apart.</b> Bytes that are not sealed but
 * belong to the drill are bound to it as associated data: a changed complaint does not open.
 *
 * <p>The plain bytes are padded with blanks to a multiple of {@value #BLOCK} before, so that lengths tell nothing.
 *
 * @param iterations rounds of PBKDF2
 * @param salt for PBKDF2 and the program's key, 16 bytes
 * @param instructor content key wrapped with the passphrase
 * @param program content key wrapped for the program
 * @param content the sealed bytes
 */
record Vault(int iterations, byte[] salt, byte[] instructor, byte[] program, byte[] content) {
    /** Rounds for a new drill; OWASP's password storage notes of 2023 name 600,000 for HMAC-SHA-256 (from memory). */
    static final int ITERATIONS = 600_000;

    static final int LEAST_ITERATIONS = 1_000;
    static final int MOST_ITERATIONS = 10_000_000;

    private static final int BLOCK = 4096;
    private static final int SALT_BYTES = 16;
    private static final int NONCE_BYTES = 12;
    private static final int TAG_BITS = 128;
    private static final int KEY_BITS = 256;
    private static final String OPEN_TO_THE_PROGRAM = "Loomcase opens this for a student who plays. It is no secret.";

    /** Seals text for a passphrase. */
    static Vault seal(String text, byte[] bound, char[] passphrase, int iterations) {
        SecureRandom random = new SecureRandom();
        byte[] salt = new byte[SALT_BYTES];
        random.nextBytes(salt);
        byte[] key = new byte[KEY_BITS / 8];
        random.nextBytes(key);
        return new Vault(
                iterations,
                salt,
                encrypt(fromPassphrase(passphrase, salt, iterations), key, salt, random),
                encrypt(programKey(salt), key, salt, random),
                encrypt(key, padded(text), bound, random));
    }

    /** Opens it as the program does while a student plays. */
    String open(byte[] bound) throws AEADBadTagException {
        return text(decrypt(decrypt(programKey(salt), program, salt), content, bound));
    }

    /** Opens it with the instructor's passphrase. */
    String open(byte[] bound, char[] passphrase) throws AEADBadTagException {
        return text(decrypt(decrypt(fromPassphrase(passphrase, salt, iterations), instructor, salt), content, bound));
    }

    /** True when the passphrase is the instructor's. */
    boolean isFor(char[] passphrase) {
        try {
            decrypt(fromPassphrase(passphrase, salt, iterations), instructor, salt);
            return true;
        } catch (AEADBadTagException e) {
            return false;
        }
    }

    private static byte[] padded(String text) {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        byte[] out = new byte[(bytes.length / BLOCK + 1) * BLOCK];
        Arrays.fill(out, (byte) ' ');
        System.arraycopy(bytes, 0, out, 0, bytes.length);
        return out;
    }

    private static String text(byte[] padded) {
        return new String(padded, StandardCharsets.UTF_8).strip();
    }

    private static byte[] fromPassphrase(char[] passphrase, byte[] salt, int iterations) {
        if (passphrase.length == 0) throw new InputProblem("the passphrase is empty");
        try {
            return SecretKeyFactory.getInstance("PBKDF2WithHmacSHA256")
                    .generateSecret(new PBEKeySpec(passphrase, salt, iterations, KEY_BITS))
                    .getEncoded();
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java platform lacks PBKDF2WithHmacSHA256", e);
        }
    }

    private static byte[] programKey(byte[] salt) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            digest.update(OPEN_TO_THE_PROGRAM.getBytes(StandardCharsets.UTF_8));
            return digest.digest(salt);
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java platform must offer SHA-256", e);
        }
    }

    /** Nonce, then cipher text with its tag. */
    private static byte[] encrypt(byte[] key, byte[] plain, byte[] bound, SecureRandom random) {
        byte[] nonce = new byte[NONCE_BYTES];
        random.nextBytes(nonce);
        try {
            byte[] cipher = cipher(Cipher.ENCRYPT_MODE, key, nonce, bound).doFinal(plain);
            byte[] out = Arrays.copyOf(nonce, NONCE_BYTES + cipher.length);
            System.arraycopy(cipher, 0, out, NONCE_BYTES, cipher.length);
            return out;
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java platform lacks AES/GCM", e);
        }
    }

    private static byte[] decrypt(byte[] key, byte[] sealed, byte[] bound) throws AEADBadTagException {
        if (sealed.length <= NONCE_BYTES) throw new AEADBadTagException("too short");
        try {
            return cipher(Cipher.DECRYPT_MODE, key, Arrays.copyOf(sealed, NONCE_BYTES), bound)
                    .doFinal(sealed, NONCE_BYTES, sealed.length - NONCE_BYTES);
        } catch (AEADBadTagException e) {
            throw e;
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java platform lacks AES/GCM", e);
        }
    }

    private static Cipher cipher(int mode, byte[] key, byte[] nonce, byte[] bound) throws GeneralSecurityException {
        Cipher cipher = Cipher.getInstance("AES/GCM/NoPadding");
        cipher.init(mode, new SecretKeySpec(key, "AES"), new GCMParameterSpec(TAG_BITS, nonce));
        cipher.updateAAD(bound);
        return cipher;
    }

    /** Lower-case digits, so that no name in capitals can come up in them by chance. */
    static String hex(byte[] bytes) {
        return HexFormat.of().formatHex(bytes);
    }
}
