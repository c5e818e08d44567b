package loomcase.inspect;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.casework.Answer;
import loomcase.casework.OpenCase;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.PlaceId;
import loomcase.model.Watch;

/**
 * The electrical chain of one code, from control-unit pin to device and back to ground.
 *
 * @param code the code
 * @param label what it says
 * @param moment when the volts hold
 * @param limit the condition that sets it, in words
 * @param legs chains of stops, the measured one first
 */
public record CodeCircuit(Code code, String label, Volts.Moment moment, String limit, List<Leg> legs) {

    /**
     * One chain.
     *
     * @param title what it carries, such as signal or supply
     */
    public record Leg(String title, List<Stop> stops) {
        public Leg {
            stops = List.copyOf(stops);
        }
    }

    /**
     * One stop of a chain.
     *
     * @param place what it is
     * @param point where a meter reaches it, empty for a wire
     * @param words what it is called
     * @param volts volts there; empty for a wire
     * @param differs whether the suspect moves the volts there by more than {@value #MOVED_VOLTS} V
     * @param share probability that the fault is at this very place
     */
    public record Stop(
            PlaceId place, String point, String words, Optional<Volts.At> volts, boolean differs, double share) {}

    /** A change that a shop meter shows without doubt (judgement). */
    public static final double MOVED_VOLTS = 0.1;

    public CodeCircuit {
        legs = List.copyOf(legs);
    }

    /** Moments at which a code's watch looks, first the one at an operating point of the evidence. */
    public static List<Volts.Moment> moments(Answer answer, Code code) {
        List<Volts.Moment> out = new ArrayList<>();
        List<String> looked = answer.intake().evidence().operatingPoints();
        for (Watch w : watches(answer.circuit(), code))
            for (String op : w.operatingPoints()) {
                Volts.Moment m = new Volts.Moment(op, w.measure().phase());
                if (out.contains(m)) continue;
                if (looked.contains(op)) out.add(0, m);
                else out.add(m);
            }
        return out;
    }

    private static List<Watch> watches(Circuit circuit, Code code) {
        List<Watch> out = circuit.watches().stream()
                .filter(w -> w.spn() == code.spn() && w.fmi() == code.fmi())
                .toList();
        if (!out.isEmpty()) return out;
        // Rules may show a condition under another FMI; its circuit is that of the SPN.
        out = circuit.watches().stream().filter(w -> w.spn() == code.spn()).toList();
        if (out.isEmpty()) throw new InputProblem("code " + code + " belongs to no circuit of " + circuit.id());
        return out;
    }

    /**
     * The chain of a code in a case.
     *
     * @param moment when volts are taken
     * @param suspect rank of the suspect to compare with, from 1
     * @throws InputProblem when no circuit of the harness carries the code's SPN
     */
    public static CodeCircuit of(OpenCase open, Answer answer, Code code, Volts.Moment moment, int suspect) {
        Watch watch = watches(open.circuit(), code).get(0);
        List<Chains.Chain> chains = new Chains(open.circuit()).of(watch);
        Set<String> points = new LinkedHashSet<>();
        chains.forEach(c -> c.stops().stream()
                .map(Chains.Stop::point)
                .filter(p -> !p.isEmpty())
                .forEach(points::add));
        Map<String, Volts.At> volts = new Volts(open, answer, moment, suspect).of(List.copyOf(points));
        Map<PlaceId, Double> shares = answer.ranking().shares();
        List<Leg> legs = chains.stream()
                .map(c -> new Leg(
                        c.title(),
                        c.stops().stream().map(s -> stop(s, volts, shares)).toList()))
                .toList();
        return new CodeCircuit(code, watch.label(), moment, limit(watch), legs);
    }

    private static Stop stop(Chains.Stop s, Map<String, Volts.At> volts, Map<PlaceId, Double> shares) {
        Optional<Volts.At> at = Optional.ofNullable(volts.get(s.point()));
        return new Stop(
                s.place(),
                s.point(),
                s.words(),
                at,
                at.map(CodeCircuit::differs).orElse(false),
                Math.min(1, shares.getOrDefault(s.place(), 0.0)));
    }

    private static boolean differs(Volts.At at) {
        OptionalDouble a = at.healthy();
        OptionalDouble b = at.suspected();
        return a.isPresent() && b.isPresent() && Math.abs(a.getAsDouble() - b.getAsDouble()) > MOVED_VOLTS;
    }

    private static String limit(Watch w) {
        String unit = w.measure() instanceof Watch.PinAmperes ? " A" : " V";
        String what = String.join(" less ", w.measure().pins());
        String how = w.measure() instanceof Watch.Swing
                ? "swing of "
                : w.measure() instanceof Watch.Departure ? "departure of " : "";
        return "set when the " + how + "pin " + what + " is " + (w.limit().above() ? "above " : "below ")
                + String.format(java.util.Locale.ROOT, "%.4g", w.limit().value()) + unit + " for "
                + String.format(java.util.Locale.ROOT, "%.3g", w.debounceSeconds()) + " s";
    }
}
