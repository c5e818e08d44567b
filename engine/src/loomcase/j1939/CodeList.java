package loomcase.j1939;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.OptionalInt;
import java.util.Set;

/**
 * Codes as a person types them: {@code 110/3}, or {@code 110/3x4} when the display shows a count of 4, several with commas
 * between them.
 */
public record CodeList(List<Entry> entries) {
    private static final String FORM = "write SPN/FMI or SPN/FMIxCOUNT, as in 110/3,100/4x2";

    /** One typed code; the count is empty when none was typed. */
    public record Entry(Code code, OptionalInt count) {
        public Entry {
            Objects.requireNonNull(code, "code");
            if (count.isPresent() && (count.getAsInt() < 1 || count.getAsInt() > Dtc.MAX_COUNT)) {
                throw new IllegalArgumentException("count " + count.getAsInt() + " is outside 1.." + Dtc.MAX_COUNT);
            }
        }

        @Override
        public String toString() {
            return count.isPresent() ? code + "x" + count.getAsInt() : code.toString();
        }
    }

    public CodeList {
        entries = List.copyOf(entries);
    }

    /**
     * Reads a list; blanks around a code are allowed, an empty text is an empty list.
     *
     * @throws CodeProblem naming the part at fault and what is allowed
     */
    public static CodeList parse(String text) {
        List<Entry> entries = new ArrayList<>();
        if (text.isBlank()) {
            return new CodeList(entries);
        }
        Set<Code> seen = new HashSet<>();
        for (String part : text.split(",", -1)) {
            Entry entry = entry(part.strip(), text);
            if (!seen.add(entry.code())) {
                throw new CodeProblem("code " + entry.code() + " is given twice in '" + text.strip()
                        + "'; give it once, with its count");
            }
            entries.add(entry);
        }
        return new CodeList(entries);
    }

    /** The text that {@link #parse} reads back. */
    @Override
    public String toString() {
        return String.join(",", entries.stream().map(Entry::toString).toList());
    }

    private static Entry entry(String part, String text) {
        if (part.isEmpty()) {
            throw new CodeProblem("a code is missing between commas in '" + text.strip() + "'; " + FORM);
        }
        int slash = part.indexOf('/');
        if (slash < 0) {
            throw new CodeProblem("code '" + part + "' has no '/' between SPN and FMI; " + FORM);
        }
        int times = Math.max(part.indexOf('x', slash), part.indexOf('X', slash));
        int spn = number(part, part.substring(0, slash), "SPN", 0, Code.MAX_SPN);
        int fmi = number(part, part.substring(slash + 1, times < 0 ? part.length() : times), "FMI", 0, Code.MAX_FMI);
        OptionalInt count = times < 0
                ? OptionalInt.empty()
                : OptionalInt.of(number(part, part.substring(times + 1), "count", 1, Dtc.MAX_COUNT));
        return new Entry(new Code(spn, fmi), count);
    }

    private static int number(String part, String digits, String what, int least, int most) {
        boolean plain = !digits.isEmpty() && digits.chars().allMatch(c -> c >= '0' && c <= '9');
        if (!plain) {
            throw new CodeProblem("code '" + part + "': " + what + " '" + digits + "' is not a whole number; " + FORM);
        }
        // Nine digits hold every allowed value and cannot overflow; leading zeros are harmless.
        String significant = digits.replaceFirst("^0+(?=.)", "");
        int value = significant.length() > 9 ? Integer.MAX_VALUE : Integer.parseInt(significant);
        if (value < least || value > most) {
            throw new CodeProblem("code '" + part + "': " + what + " " + digits + " is outside " + least + ".." + most);
        }
        return value;
    }
}
