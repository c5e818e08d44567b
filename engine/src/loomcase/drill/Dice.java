package loomcase.drill;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.List;

/**
 * Random numbers that are the same on every machine and in any order of asking.
 *
 * <p>Each number is asked for by a label and is the first 53 bits of the SHA-256 (FIPS 180-4) of seed and label, divided by
 * 2^53. There is no state: replaying a drill from its first line gives the same readings.
 *
 * @param seed what the numbers hang on
 */
record Dice(long seed) {

    /** A number within 0 (included) to 1 (excluded). */
    double uniform(String label) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            digest.update(ByteBuffer.allocate(Long.BYTES).putLong(seed).flip());
            long bits = ByteBuffer.wrap(digest.digest(label.getBytes(StandardCharsets.UTF_8)))
                    .getLong();
            return (bits >>> 11) * 0x1.0p-53;
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform must offer SHA-256", e);
        }
    }

    /** A number of the standard normal distribution (Box and Muller 1958). */
    double normal(String label) {
        double radius = StrictMath.sqrt(-2 * StrictMath.log(1 - uniform(label + " radius")));
        return radius * StrictMath.cos(2 * StrictMath.PI * uniform(label + " angle"));
    }

    /** One of a list, each as likely. */
    <T> T pick(String label, List<T> from) {
        return from.get((int) (uniform(label) * from.size()));
    }

    /** A count of at least 1, geometric with this mean, at most {@code most}. */
    int count(String label, double mean, int most) {
        double p = 1 / Math.max(1, mean);
        double n = p >= 1 ? 1 : 1 + Math.floor(StrictMath.log(1 - uniform(label)) / StrictMath.log(1 - p));
        return (int) Math.min(most, n);
    }
}
