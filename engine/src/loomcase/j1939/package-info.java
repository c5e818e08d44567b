/**
 * The words of SAE J1939 that a trouble code is made of: code, trouble code bytes, lamps, identifier, message.
 *
 * <p><b>In:</b> bytes and typed text. <b>Out:</b> values; nothing here reads a file. The package {@code log} below does.
 *
 * <p><b>Method.</b> A trouble code (DTC) is four bytes: a 19 bit suspect parameter number (SPN), a 5 bit failure mode
 * identifier (FMI), a conversion bit and a 7 bit occurrence count. When the conversion bit is 0 the SPN is laid out as in
 * version 4 of the standard. When it is 1 the sender uses one of three older layouts, and the bytes do not say which:
 * {@link loomcase.j1939.CodeReading} then keeps every candidate, until somebody who knows the sender names its
 * {@link loomcase.j1939.ConversionMethod}.
 *
 * <p><b>Sources.</b> SAE J1939-73 (DTC, DM1, DM2) and J1939-21 (identifier) are not free to quote, so the layouts were
 * taken from public descriptions of them and are checked in the tests against the test data of general-purpose protocol
 * libraries, each named beside its numbers. The older SPN layouts: user manual of the GSC400 Series generator-set
 * controller, appendix F "J1939 Old DTC Conversion Methods", and the bytes discussed in
 * https://github.com/linux-can/can-utils/issues/511 . That manual gives the conversion bit the opposite polarity; the
 * issue, and the CODESYS library documentation of its DTC structure, agree on 0 = version 4, which is used here.
 *
 * <p><b>Must not know:</b> any circuit, any wire, any file.
 *
 * <p>Start at {@link loomcase.j1939.Dtc}, then {@link loomcase.j1939.TroubleMessage}.
 */
package loomcase.j1939;
