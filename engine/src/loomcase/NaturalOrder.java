package loomcase;

import java.math.BigInteger;
import java.util.Comparator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Names in the order in which a person counts: digits in them as numbers, so {@code student-2} before {@code student-10}. */
public final class NaturalOrder implements Comparator<String> {
    /** It has no state. */
    public static final Comparator<String> OF_NAMES = new NaturalOrder().thenComparing(Comparator.naturalOrder());

    private static final Pattern PART = Pattern.compile("[0-9]+|[^0-9]+");

    private NaturalOrder() {}

    @Override
    public int compare(String a, String b) {
        Matcher x = PART.matcher(a);
        Matcher y = PART.matcher(b);
        while (true) {
            boolean more = x.find();
            if (!y.find()) return more ? 1 : 0;
            if (!more) return -1;
            boolean numbers = isNumber(x.group()) && isNumber(y.group());
            int parts = numbers
                    ? new BigInteger(x.group()).compareTo(new BigInteger(y.group()))
                    : x.group().compareTo(y.group());
            if (parts != 0) return parts;
        }
    }

    private static boolean isNumber(String part) {
        return Character.digit(part.charAt(0), 10) >= 0;
    }
}
