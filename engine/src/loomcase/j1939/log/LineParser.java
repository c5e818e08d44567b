package loomcase.j1939.log;

import java.util.Arrays;

/**
 * Takes one line of a log apart, without a String or a pattern.
 *
 * <p>Positions are indices into the text; methods that move one return it, or -1 where the text does not fit.
 */
final class LineParser {
    private static final int ERROR_FLAG = 0x20000000;
    private static final int MAX_ID = 0x1FFFFFFF;
    private static final byte[] HEX = hexTable();
    private static final byte[] DROPCOUNT = {'D', 'R', 'O', 'P', 'C', 'O', 'U', 'N', 'T', ':'};

    private byte[] text;
    private int end;
    private Frame frame;
    private boolean afterError;

    /**
     * Fills the frame from one line.
     *
     * @param line text with the line in {@code frame.from..frame.to}, without its line end
     */
    Frame.Sort parse(Frame frame) {
        Frame.Sort sort = sort(frame);
        // candump -e explains an error frame in indented lines below it.
        if (sort == Frame.Sort.UNREADABLE && afterError && text[frame.from] == '\t') {
            return Frame.Sort.BLANK;
        }
        afterError = sort == Frame.Sort.ERROR;
        return sort;
    }

    private Frame.Sort sort(Frame frame) {
        this.frame = frame;
        this.text = frame.text;
        this.end = frame.to;
        frame.timed = false;
        frame.networkFrom = frame.networkTo = frame.from;
        frame.length = 0;
        int at = skipBlank(frame.from);
        if (at == end || text[at] == '#' || text[at] == ';') {
            return Frame.Sort.BLANK;
        }
        if (text[at] == '(') {
            at = LogStamp.read(text, at, end, frame);
            if (at < 0) {
                return Frame.Sort.UNREADABLE;
            }
            at = skipBlank(at);
        }
        int tokenEnd = tokenEnd(at);
        if (startsWith(at, DROPCOUNT)) {
            return Frame.Sort.DROPPED;
        }
        // Without an interface name the first word is the frame itself; only the log file form can be told so.
        if (indexOf('#', at, tokenEnd) < 0) {
            frame.networkFrom = at;
            frame.networkTo = tokenEnd;
            at = skipDirection(skipBlank(tokenEnd));
        }
        return identified(at);
    }

    private Frame.Sort identified(int at) {
        int value = 0;
        int digits = 0;
        int next = at;
        while (next < end && digits < 9 && HEX[text[next] & 0xFF] >= 0) {
            value = value << 4 | HEX[text[next++] & 0xFF];
            digits++;
        }
        boolean compact = next < end && text[next] == '#';
        if (!compact && next < end && !blank(text[next])) {
            return Frame.Sort.UNREADABLE;
        }
        if (digits == 5 && compact) {
            return Frame.Sort.FLEXIBLE;
        }
        if (digits == 3 ? value > 0x7FF : digits != 8 || (value & ~(MAX_ID | ERROR_FLAG)) != 0) {
            return Frame.Sort.UNREADABLE;
        }
        frame.id = value & MAX_ID;
        Frame.Sort sort = compact ? compactData(next + 1) : columnData(skipBlank(next));
        if (sort != Frame.Sort.DATA) {
            return sort;
        }
        if (digits == 3) {
            return Frame.Sort.STANDARD;
        }
        return (value & ERROR_FLAG) != 0 ? Frame.Sort.ERROR : Frame.Sort.DATA;
    }

    /** What follows the '#': bytes without blanks (points between them are allowed), R for remote, or ## for CAN FD. */
    private Frame.Sort compactData(int at) {
        if (at < end && text[at] == '#') {
            return Frame.Sort.FLEXIBLE;
        }
        if (at < end && (text[at] == 'R' || text[at] == 'r')) {
            return Frame.Sort.REMOTE;
        }
        int length = 0;
        while (at < end && !blank(text[at]) && text[at] != '_') {
            if (text[at] == '.') {
                at++;
                continue;
            }
            int high = HEX[text[at] & 0xFF];
            if (high < 0 || length == Frame.MAX_BYTES) {
                return Frame.Sort.UNREADABLE;
            }
            if (at + 1 == end || blank(text[at + 1])) {
                return Frame.Sort.TRUNCATED;
            }
            int low = HEX[text[at + 1] & 0xFF];
            if (low < 0) {
                return Frame.Sort.UNREADABLE;
            }
            frame.data[length++] = (byte) (high << 4 | low);
            at += 2;
        }
        frame.length = length;
        return Frame.Sort.DATA;
    }

    /** The console form: [length], or {code} of it, then bytes with blanks (or ` if swapped) between them. */
    private Frame.Sort columnData(int at) {
        if (at == end) {
            return Frame.Sort.TRUNCATED;
        }
        if (text[at] != '[' && text[at] != '{') {
            return Frame.Sort.UNREADABLE;
        }
        boolean raw = text[at] == '{';
        int close = indexOf(raw ? '}' : ']', at, Math.min(end, at + 6));
        if (close < 0) {
            return end - at < 6 ? Frame.Sort.TRUNCATED : Frame.Sort.UNREADABLE;
        }
        if (close != at + 2) {
            return close > at + 2 ? Frame.Sort.FLEXIBLE : Frame.Sort.UNREADABLE;
        }
        int length = HEX[text[at + 1] & 0xFF];
        if (length < 0 || !raw && length > Frame.MAX_BYTES) {
            return Frame.Sort.UNREADABLE;
        }
        int first = skipBlank(close + 1);
        if (first < end && text[first] == 'r') {
            return Frame.Sort.REMOTE;
        }
        return columns(first, Math.min(length, Frame.MAX_BYTES));
    }

    private Frame.Sort columns(int first, int length) {
        int at = first;
        boolean swapped = false;
        for (int i = 0; i < length; i++) {
            if (i > 0 && at < end && text[at] == '`') {
                swapped = true;
                at++;
            } else {
                at = skipBlank(at);
            }
            if (at + 1 >= end) {
                return Frame.Sort.TRUNCATED;
            }
            int high = HEX[text[at] & 0xFF];
            int low = HEX[text[at + 1] & 0xFF];
            if (high < 0 || low < 0) {
                return text[at] == '\'' ? Frame.Sort.TRUNCATED : Frame.Sort.UNREADABLE;
            }
            frame.data[i] = (byte) (high << 4 | low);
            at += 2;
            if (at < end && !blank(text[at]) && text[at] != '`') {
                return Frame.Sort.UNREADABLE;
            }
        }
        frame.length = length;
        if (swapped) {
            swap(frame.data, length);
        }
        return Frame.Sort.DATA;
    }

    private static void swap(byte[] data, int length) {
        for (int i = 0; i < length / 2; i++) {
            byte kept = data[i];
            data[i] = data[length - 1 - i];
            data[length - 1 - i] = kept;
        }
    }

    /** Past "RX" or "TX" and the two flag columns that candump -x puts before the identifier. */
    private int skipDirection(int at) {
        boolean direction =
                at + 2 < end && (text[at] == 'R' || text[at] == 'T') && text[at + 1] == 'X' && blank(text[at + 2]);
        if (!direction) {
            return at;
        }
        int next = skipBlank(at + 2);
        for (int flags = 0; flags < 2 && next + 1 < end && blank(text[next + 1]); flags++) {
            next = skipBlank(next + 1);
        }
        return next;
    }

    /** Blanks, and the colour sequences of candump -c. */
    private int skipBlank(int at) {
        while (at < end) {
            byte b = text[at];
            if (b == 0x1B) {
                int letter = indexOf('m', at, Math.min(end, at + 8));
                if (letter < 0) {
                    return at;
                }
                at = letter + 1;
            } else if (blank(b)) {
                at++;
            } else {
                return at;
            }
        }
        return end;
    }

    private int tokenEnd(int at) {
        while (at < end && !blank(text[at])) {
            at++;
        }
        return at;
    }

    private int indexOf(char wanted, int from, int to) {
        for (int i = from; i < to; i++) {
            if (text[i] == wanted) {
                return i;
            }
        }
        return -1;
    }

    private boolean startsWith(int at, byte[] word) {
        return end - at >= word.length && Arrays.equals(text, at, at + word.length, word, 0, word.length);
    }

    /** A colour sequence ends a word too: it starts with the escape byte. */
    private static boolean blank(byte b) {
        return b == ' ' || b == '\t' || b == '\r' || b == 0x1B;
    }

    private static byte[] hexTable() {
        byte[] table = new byte[256];
        Arrays.fill(table, (byte) -1);
        for (int digit = 0; digit < 16; digit++) {
            table["0123456789ABCDEF".charAt(digit)] = (byte) digit;
            table["0123456789abcdef".charAt(digit)] = (byte) digit;
        }
        return table;
    }
}
