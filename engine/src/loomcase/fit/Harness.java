package loomcase.fit;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.ControlUnit;
import loomcase.model.Copper;
import loomcase.model.Device;
import loomcase.model.Joints;
import loomcase.model.Names;
import loomcase.model.Wire;
import loomcase.model.read.CavityList;
import loomcase.model.read.WireList;

/**
 * One harness seen as plugs with what comes to their cavities: from a whole circuit, or from a list that knows only part.
 *
 * @param name how it is called
 * @param plugs by id
 * @param circuit the whole circuit, where there is one
 */
record Harness(String name, Map<String, Plug> plugs, Optional<Circuit> circuit) {
    /** Mate of a plug of the control unit. */
    static final String UNIT = "control unit";

    Harness {
        plugs = Collections.unmodifiableMap(new LinkedHashMap<>(plugs));
    }

    /**
     * A whole circuit.
     *
     * @param deviceNames name of each device that both harnesses use, by its id in this circuit
     */
    static Harness of(Circuit circuit, Map<String, String> deviceNames) {
        Copper copper = Copper.of(circuit);
        Map<String, Set<String>> ends = ends(circuit, copper, deviceNames);
        Map<String, Map<String, Lead>> leads = new HashMap<>();
        for (Wire w : circuit.wires().values())
            for (String end : List.of(w.from(), w.to())) {
                String plug = Names.connectorOf(end);
                if (!circuit.connectors().containsKey(plug) || !end.contains("/")) continue;
                leads.computeIfAbsent(plug, k -> new LinkedHashMap<>())
                        .putIfAbsent(Names.cavityOf(end), lead(w, end, ends.getOrDefault(copper.net(end), Set.of())));
            }
        Map<String, Plug> plugs = new LinkedHashMap<>();
        for (Connector c : circuit.connectors().values())
            plugs.put(c.id(), plug(circuit, c, deviceNames, leads.getOrDefault(c.id(), Map.of())));
        return new Harness(circuit.id(), plugs, Optional.of(circuit));
    }

    private static Lead lead(Wire w, String end, Set<String> serves) {
        return new Lead(
                Names.cavityOf(end),
                w.circuit(),
                serves,
                w.id(),
                Optional.of(w.size()),
                w.insulation(),
                w.colour(),
                w.givenMetres(),
                Optional.of(w.lay()));
    }

    private static Plug plug(Circuit circuit, Connector c, Map<String, String> deviceNames, Map<String, Lead> leads) {
        boolean inline = circuit.connectors().containsKey(c.mates());
        String mate = inline
                ? ""
                : c.mates().equals(circuit.controlUnit().id())
                        ? UNIT
                        : "device " + deviceNames.getOrDefault(c.mates(), "new " + c.mates());
        Map<String, Lead> ordered = new LinkedHashMap<>();
        for (List<String> row : c.rows())
            for (String cavity : row) if (leads.containsKey(cavity)) ordered.put(cavity, leads.get(cavity));
        return new Plug(
                c.id(),
                c.label(),
                mate,
                inline ? Optional.of(c.mates()) : Optional.empty(),
                c.rows(),
                true,
                c.terminal(),
                Optional.of(c.sealed()),
                c.shell().map(Connector.Shell::keying).orElse(""),
                c.shell().map(Connector.Shell::colour).orElse(""),
                c.shell().map(Connector.Shell::latch).orElse(""),
                c.shell().map(Connector.Shell::seal).orElse(""),
                c.shell().map(Connector.Shell::secondaryLock),
                ordered);
    }

    /** What each net ends at: device terminals, pins of the control unit by their words, ground studs by their words. */
    private static Map<String, Set<String>> ends(Circuit circuit, Copper copper, Map<String, String> deviceNames) {
        Map<String, Set<String>> out = new HashMap<>();
        for (Device d : circuit.devices().values()) {
            String name = deviceNames.getOrDefault(d.id(), "new " + d.id());
            d.terminals().forEach((role, cavity) -> add(out, copper.net(cavity), name + " " + role));
        }
        for (ControlUnit.Pin p : circuit.controlUnit().pins().values())
            add(
                    out,
                    copper.net(p.cavity()),
                    UNIT + " " + p.label() + ", " + p.function().word());
        for (Joints.Ground g : circuit.grounds().values()) add(out, copper.net(g.id()), "ground " + g.label());
        return out;
    }

    private static void add(Map<String, Set<String>> map, String key, String value) {
        map.computeIfAbsent(key, k -> new LinkedHashSet<>()).add(value);
    }

    /**
     * A cavity list; what a wire that the old harness also has carries is taken from there.
     *
     * @param old the circuit that it is to replace
     */
    static Harness of(String name, CavityList list, Circuit old) {
        Map<String, Plug> plugs = new LinkedHashMap<>();
        for (CavityList.Plug p : list.plugs().values()) {
            Map<String, Lead> leads = new LinkedHashMap<>();
            for (CavityList.Cavity c : p.cavities().values()) if (!c.empty()) leads.put(c.name(), lead(c, old));
            plugs.put(p.id(), listed(p.id(), List.copyOf(p.cavities().keySet()), p.facts(), leads, old));
        }
        return new Harness(name, plugs, Optional.empty());
    }

    private static Lead lead(CavityList.Cavity c, Circuit old) {
        Wire same = old.wires().get(c.wire());
        return new Lead(
                c.name(),
                c.circuit().isEmpty() && same != null ? same.circuit() : c.circuit(),
                Set.of(),
                c.wire(),
                c.size(),
                c.insulation(),
                c.colour(),
                c.metres(),
                Optional.empty());
    }

    /** A wire list: both ends of every wire that end in a plug. */
    static Harness of(String name, WireList list, Circuit old) {
        Map<String, Map<String, Lead>> leads = new LinkedHashMap<>();
        for (Wire w : list.wires())
            for (String end : List.of(w.from(), w.to())) {
                String owner = Names.connectorOf(end);
                if (!end.contains("/") || old.fuses().containsKey(owner)) continue;
                Wire same = old.wires().get(w.id());
                Lead lead = new Lead(
                        Names.cavityOf(end),
                        w.circuit().isEmpty() && same != null ? same.circuit() : w.circuit(),
                        Set.of(),
                        w.id(),
                        Optional.of(w.size()),
                        w.insulation(),
                        w.colour(),
                        w.givenMetres(),
                        Optional.empty());
                leads.computeIfAbsent(owner, k -> new LinkedHashMap<>()).putIfAbsent(lead.cavity(), lead);
            }
        Map<String, Plug> plugs = new LinkedHashMap<>();
        leads.forEach((id, all) -> plugs.put(id, listed(id, List.copyOf(all.keySet()), Map.of(), all, old)));
        return new Harness(name, plugs, Optional.empty());
    }

    /** A plug of a list; its rows are those of the old plug of that id where every listed cavity is one of them. */
    private static Plug listed(
            String id, List<String> cavities, Map<String, String> facts, Map<String, Lead> leads, Circuit old) {
        Connector same = old.connectors().get(id);
        boolean alike = same != null && cavities.stream().allMatch(same::has);
        List<List<String>> rows = new ArrayList<>(alike ? same.rows() : List.of(cavities));
        Map<String, Lead> ordered = new LinkedHashMap<>();
        for (List<String> row : rows)
            for (String cavity : row) if (leads.containsKey(cavity)) ordered.put(cavity, leads.get(cavity));
        return new Plug(
                id,
                alike ? same.label() : "",
                "",
                Optional.empty(),
                rows,
                false,
                facts.getOrDefault("terminal", ""),
                Optional.empty(),
                facts.getOrDefault("keying", ""),
                facts.getOrDefault("housing", ""),
                facts.getOrDefault("latch", ""),
                facts.getOrDefault("seal", ""),
                Optional.ofNullable(facts.get("secondaryLock")).map("yes"::equals),
                ordered);
    }
}
