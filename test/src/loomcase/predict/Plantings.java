package loomcase.predict;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.model.Edit;
import loomcase.model.Names;

/**
 * Rows of the fault map as faults of the reference harness.
 *
 * <p>Key: {@code circuit_type|fault_site} as in the file. Parts used: ECT thermistor on return SRC with the
 * Hall sensors CMP and FNS; CCP and OPS pulled down on rail 5VA, OPS plain, CCP silent when unpowered; AFR pulled up; FAN
 * on a low side, EB1 on a high side, INJ1 in a bank of three; NX1 on a network stub; EGR a motor with position.
 */
final class Plantings {
    private static final String CLAMP = "J1/1";

    private final Map<String, Planting> all = new LinkedHashMap<>();

    /**
     * A row planted.
     *
     * @param spn the code to look at
     * @param edits the fault
     */
    record Planting(int spn, List<Edit> edits) {}

    static Map<String, Planting> all() {
        Plantings p = new Plantings();
        p.thermistor();
        p.pulledDown();
        p.pulledUp();
        p.speed();
        p.drivers();
        p.injector();
        p.networkAndMotor();
        p.probeAndRelay();
        return p.all;
    }

    private void thermistor() {
        String t = "NTC_2wire_pullup|";
        put(t + "signal open", 110, open("W208"));
        put(t + "branch return open", 110, open("W186"));
        put(t + "shared return open (upstream of splice)", 110, open("W183"));
        put(t + "signal short to ground/return", 110, ground("J2/4"));
        put(t + "signal short to 5 V", 110, bridge("J2/4", "J2/30"));
        put(t + "signal short to battery", 110, bridge("J2/4", CLAMP));
        put(t + "series 100-5000 ohm", 110, series("W208", 1000));
        put(t + "leak to ground 1k-100k", 110, new Edit.Bridge("J2/4", Names.CHASSIS, 10_000));
        put(t + "cross-short to another NTC signal", 110, bridge("J2/4", "J2/20"));
        put(t + "sensor element open", 110, new Edit.Series("device:ECT/element", Edit.OPEN_OHMS));
        put(t + "sensor element shorted", 110, new Edit.Series("device:ECT/element", 1));
    }

    private void pulledDown() {
        String t = "RATIOMETRIC_3wire_pulldown_100k|";
        put(t + "signal open", 101, open("W215"));
        put(t + "branch 5 V supply open", 101, open("W129"));
        put(t + "branch return open, plain sensor", 100, open("W169"));
        put(t + "branch return open, broken-wire-protected sensor", 101, open("W170"));
        put(t + "signal short to ground", 101, ground("J2/22"));
        put(t + "signal short to 5 V", 101, bridge("J2/22", "J2/2"));
        put(t + "signal short to battery", 101, bridge("J2/22", CLAMP));
        put(t + "shared supply open (upstream of splice)", 101, open("W123"));
        put(t + "shared supply shorted to ground", 101, ground("J2/2"));
        put(t + "shared supply shorted to battery", 100, bridge("J2/2", CLAMP));
        put(t + "shared return open", 100, open("W162"));
        put(t + "series R in supply (10-50 ohm at 8 mA)", 101, series("W129", 30));
        put(t + "series R in return (10-50 ohm at 8 mA)", 101, series("W170", 30));
        put(t + "series R in signal", 101, series("W215", 1000));
    }

    private void pulledUp() {
        String t = "RATIOMETRIC_3wire_pullup_51k|";
        put(t + "signal open", 107, open("W282"));
        put(t + "branch 5 V supply open, protected sensor", 107, open("W151"));
        put(t + "branch return open", 107, open("W190"));
        put(t + "signal short to ground", 107, ground("J1/22"));
        put(t + "signal short to 5 V / battery", 107, bridge("J1/22", "J1/10"));
    }

    private void speed() {
        String t = "HALL_3wire_opencollector_pullup|";
        put(t + "signal open", 1639, open("W224"));
        put(t + "supply open", 1639, open("W149"));
        put(t + "return open", 1639, open("W185"));
        put(t + "signal short to ground", 1639, ground("J2/29"));
        put(t + "signal short to 5 V/battery", 1639, bridge("J2/29", CLAMP));
        String v = "VR_2wire|";
        put(v + "either wire open", 190, open("W225"));
        put(v + "pair shorted together", 190, bridge("J2/8", "J2/9"));
        put(v + "one leg to ground", 103, ground("J2/24"));
        put(
                v + "polarity reversed (after repair)",
                103,
                open("W227"),
                open("W228"),
                new Edit.Bridge("J2/24", "C-TSP/2", 0.01),
                new Edit.Bridge("J2/25", "C-TSP/1", 0.01));
    }

    private void drivers() {
        String l = "LOWSIDE_DRIVER_load_to_battery|";
        put(l + "control wire open or load open", 647, open("W071"));
        put(l + "load feed (battery side) open/fuse", 647, open("W068"));
        put(l + "control wire short to ground", 647, ground("J2/28"));
        put(l + "control wire short to battery", 647, bridge("J2/28", CLAMP));
        put(l + "load shorted internally", 647, new Edit.Series("device:FAN/element", 0.1));
        put(l + "series resistance", 647, series("W071", 3));
        String h = "HIGHSIDE_DRIVER_load_to_ground|";
        put(h + "control wire open or load open", 1072, open("W248"));
        put(h + "load ground open", 1072, open("W267"));
        put(h + "control wire short to ground", 1072, ground("J2/10"));
        put(h + "control wire short to battery", 1072, bridge("J2/10", CLAMP));
    }

    private void injector() {
        String t = "INJECTOR_HS_LS_pair|";
        put(t + "either leg open", 651, open("W240"));
        put(t + "HS to LS shorted (coil bypassed)", 651, bridge("J2/1", "J2/3"));
        put(t + "leg to ground", 2797, ground("J2/3"));
        put(t + "leg to battery", 2797, bridge("J2/3", CLAMP));
        put(t + "series 0.5-2 ohm", 651, series("W240", 1));
    }

    private void networkAndMotor() {
        String n = "SMART_ACTUATOR_or_NOX_on_CAN|";
        put(n + "power or ground open", 3216, open("W077"));
        put(n + "CAN stub open (either wire)", 3216, open("W102"));
        put(n + "CAN stub shorted H-L or to supply", 639, bridge("C-NX1/3", "C-NX1/4"));
        put(n + "low supply under load", 3216, series("W077", 30));
        String b = "HBRIDGE_motor_plus_position (throttle, EGR)|";
        put(b + "motor leg open", 2791, open("W231"));
        put(b + "motor leg to ground/battery", 2791, ground("J2/33"));
        put(b + "position signal open (pull-down)", 27, open("W229"));
        put(b + "5 V supply/return open", 27, open("W135"));
    }

    private void probeAndRelay() {
        String w = "WIF_probe_pullup_supervised|";
        put(w + "signal or return open", 97, open("W222"));
        put(w + "signal short to ground", 97, ground("J2/56"));
        String r = "HEATER_or_relay_coil|";
        put(r + "coil or control open", 4354, open("W064"));
        put(r + "control short to ground", 4354, ground("J1/31"));
    }

    private void put(String key, int spn, Edit... edits) {
        if (all.put(key, new Planting(spn, List.of(edits))) != null) throw new IllegalStateException(key + " twice");
    }

    private static Edit open(String wire) {
        return series(wire, Edit.OPEN_OHMS);
    }

    private static Edit series(String wire, double ohms) {
        return new Edit.Series(Names.wire(wire), ohms);
    }

    private static Edit ground(String point) {
        return bridge(point, Names.CHASSIS);
    }

    private static Edit bridge(String a, String b) {
        return new Edit.Bridge(a, b, Edit.SHORT_OHMS);
    }
}
