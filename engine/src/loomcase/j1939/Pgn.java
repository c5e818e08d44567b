package loomcase.j1939;

/** Parameter group numbers that this program listens to. */
public final class Pgn {
    /** Transport protocol, data transfer (TP.DT). */
    public static final int TRANSPORT_DATA = 60160;
    /** Transport protocol, connection management (TP.CM). */
    public static final int TRANSPORT_CONTROL = 60416;
    /** Electronic engine controller 1: engine speed, SPN 190. */
    public static final int ENGINE_CONTROLLER_1 = 61444;
    /** Engine temperature 1: coolant, SPN 110. */
    public static final int ENGINE_TEMPERATURE_1 = 65262;
    /** Active trouble codes. */
    public static final int DM1 = 65226;
    /** Previously active trouble codes. */
    public static final int DM2 = 65227;

    private Pgn() {}
}
