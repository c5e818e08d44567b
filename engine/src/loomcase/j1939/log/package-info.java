/**
 * Reads a recorded CAN log and collects the trouble codes in it.
 *
 * <p><b>In:</b> a text log in the forms that the can-utils tools write: the log file form ({@code candump -l}, {@code -L}),
 * {@code (1436509052.249713) can0 18FECA00#00FF00000000FFFF}, with or without a direction letter behind it; and the console
 * form, {@code can0  18FECA00   [8]  00 FF 00 00 00 00 FF FF}, with or without time stamps, direction, text column, colours
 * or swapped byte order. <b>Out:</b> {@link loomcase.j1939.log.CodesRead}: per sender its lamps and codes, what was seen of
 * engine speed and coolant temperature, and counted warnings about everything that could not be used.
 *
 * <p><b>Method.</b> One pass, byte by byte, with a fixed buffer, so memory does not grow with the log:
 *
 * <pre>
 * LogReader (lines) -> LineParser (one frame) -> Bus (one network) -> Transport (messages of many frames)
 *                                                                  -> SourceState (codes of one sender)
 * </pre>
 *
 * Messages longer than a frame are put together by the rules of J1939-21: announced to all (BAM) or by appointment
 * (RTS/CTS), several at once, each known by sender and receiver; a gap of more than 750 ms ends a BAM, one of more than
 * 1250 ms an RTS transfer. Because we only listen, an RTS message counts as soon as all its packets were seen.
 *
 * <p><b>State of a code.</b> Active if it stands in its sender's last complete DM1; stored if it was in an earlier DM1 or in
 * a DM2. A log that just ends leaves the last state standing.
 *
 * <p><b>Sources.</b> Log forms: source text of can-utils ({@code lib.h}, {@code lib.c}, {@code candump.c},
 * https://github.com/linux-can/can-utils). Transport: SAE J1939-21, checked against the test data of general-purpose protocol
 * libraries named in the tests.
 *
 * <p><b>Known limits.</b> CAN FD and CAN XL frames, bit-wise data ({@code candump -i}) and messages over 1785 bytes are
 * counted, not decoded. Relative stamps ({@code candump -t d}) cannot be told from short absolute ones; times and timeouts
 * are then wrong, and a warning says so where the stamps keep falling. Dates ({@code -t A}) are taken as UTC. A code that
 * was cleared during the log stays listed as stored, with the time it was last seen.
 *
 * <p><b>Must not know:</b> any circuit.
 *
 * <p>Start at {@link loomcase.j1939.log.LogReader}. {@link loomcase.j1939.log.DmEncoder} goes the other way and makes demo
 * logs.
 */
package loomcase.j1939.log;
