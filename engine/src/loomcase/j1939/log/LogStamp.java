package loomcase.j1939.log;

import java.time.DateTimeException;
import java.time.LocalDate;

/**
 * Reads the time stamp in round brackets at the start of a line: seconds with a fraction, or a date and time of day.
 *
 * <p>A date has no zone in these logs, so it is taken as UTC: differences are right, the hour may not be.
 */
final class LogStamp {
    private static final long MAX_SECONDS = 9_000_000_000L;
    private static final long NANOS = 1_000_000_000L;

    private LogStamp() {}

    /**
     * Sets the frame's stamp.
     *
     * @param at where the opening bracket stands
     * @return where the closing bracket ends, or -1 where the text is no stamp
     */
    static int read(byte[] text, int at, int end, Frame frame) {
        int next = at + 1;
        // can-utils pads with zeros, other writers with blanks.
        while (next < end && text[next] == ' ') {
            next++;
        }
        int start = next;
        long seconds = 0;
        while (next < end && digit(text[next]) && seconds <= MAX_SECONDS) {
            seconds = seconds * 10 + (text[next++] - '0');
        }
        if (next == start || seconds > MAX_SECONDS) {
            return -1;
        }
        if (next < end && text[next] == '-') {
            seconds = dated(text, start, end);
            next = start + DATE_CHARS;
            if (seconds < 0) {
                return -1;
            }
        }
        return fraction(text, next, end, seconds, frame);
    }

    private static int fraction(byte[] text, int at, int end, long seconds, Frame frame) {
        long nanos = 0;
        int next = at;
        if (next < end && text[next] == '.') {
            next++;
            long unit = NANOS / 10;
            while (next < end && digit(text[next])) {
                nanos += (text[next++] - '0') * unit;
                unit /= 10;
            }
        }
        if (next >= end || text[next] != ')') {
            return -1;
        }
        frame.timed = true;
        frame.nanos = seconds * NANOS + nanos;
        return next + 1;
    }

    private static final int DATE_CHARS = "2024-01-31 23:59:59".length();

    /** Seconds since 1970 of "2024-01-31 23:59:59", or -1. */
    private static long dated(byte[] text, int at, int end) {
        if (end - at < DATE_CHARS
                || text[at + 4] != '-'
                || text[at + 7] != '-'
                || text[at + 10] != ' '
                || text[at + 13] != ':'
                || text[at + 16] != ':') {
            return -1;
        }
        int year = pair(text, at) * 100 + pair(text, at + 2);
        int hour = pair(text, at + 11);
        int minute = pair(text, at + 14);
        int second = pair(text, at + 17);
        if (hour < 0 || minute < 0 || second < 0 || hour > 23 || minute > 59 || second > 60) {
            return -1;
        }
        try {
            long days =
                    LocalDate.of(year, pair(text, at + 5), pair(text, at + 8)).toEpochDay();
            long seconds = days * 86_400 + hour * 3600L + minute * 60L + second;
            return seconds > MAX_SECONDS ? -1 : seconds;
        } catch (DateTimeException notADate) {
            return -1;
        }
    }

    /** Two digits, or a number far below zero. */
    private static int pair(byte[] text, int at) {
        return digit(text[at]) && digit(text[at + 1]) ? (text[at] - '0') * 10 + text[at + 1] - '0' : -100_000;
    }

    private static boolean digit(byte b) {
        return b >= '0' && b <= '9';
    }
}
