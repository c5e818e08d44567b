package loomcase.policy;

import java.util.Objects;

/**
 * One trouble code that the control unit can set, as the rules see it.
 *
 * @param spn suspect parameter number (SAE J1939), 0 to 524287
 * @param fmi failure mode identifier (SAE J1939-73), 0 to 31
 * @param circuitKind kind of circuit behind the code, one of {@link CircuitKinds#ALL}
 * @param device id of the device at the end of the circuit; empty where there is none
 * @param supply id of the rail or bank that feeds it; for a {@code supply} code the rail it watches; empty where none
 * @param returnPath id of the shared return; empty where none
 * @param phaseOrWhen when the control unit looks, in the circuit file's words; empty for always
 */
public record WatchedCode(
        int spn, int fmi, String circuitKind, String device, String supply, String returnPath, String phaseOrWhen) {
    public WatchedCode {
        Codes.require("spn", spn, Codes.LARGEST_SPN);
        Codes.require("fmi", fmi, Codes.LARGEST_FMI);
        CircuitKinds.require(circuitKind);
        Objects.requireNonNull(device, "device");
        Objects.requireNonNull(supply, "supply");
        Objects.requireNonNull(returnPath, "returnPath");
        Objects.requireNonNull(phaseOrWhen, "phaseOrWhen");
    }
}
