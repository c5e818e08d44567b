package loomcase.fit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The sheet for one plug: which terminal goes where, in which order, with locks and cautions beside the step.
 *
 * @param plug old plug id, whose cavity map is the wanted one
 * @param newPlug id of the new plug
 * @param label in words
 * @param shell which housing the terminals end up in
 * @param moves in order
 * @param cycles cycles of the permutation; empty where the shell changes, since its cavities are all empty
 * @param setAside cavities of the new plug whose terminals stay out
 * @param toPlug cavities of the final housing that must get a sealing plug
 * @param steps the whole sheet in order
 */
public record Transfer(
        String plug,
        String newPlug,
        String label,
        Shell shell,
        List<Moves.Move> moves,
        List<List<String>> cycles,
        List<String> setAside,
        List<String> toPlug,
        List<Step> steps) {

    /** Which housing the terminals end up in. */
    public enum Shell {
        /** The new shell mates; terminals change places inside it. */
        SAME,
        /** The new shell does not mate; terminals go into the old one. */
        OLD
    }

    /**
     * One line to tick.
     *
     * @param work what to do; for a move, what to do with that wire
     * @param from cavity that the terminal leaves, for a move
     * @param to cavity that it goes into, for a move
     * @param wire how to tell the wire, for a move
     * @param caution what to beware of, empty for nothing
     */
    public record Step(String work, Optional<String> from, Optional<String> to, String wire, String caution) {
        /** The whole line: where from, where to, which wire, what to do. */
        public String words() {
            if (from.isEmpty()) return work;
            return from.get() + to.map(t -> " → " + t).orElse("") + ", " + wire + ": " + work + ".";
        }
    }

    public Transfer {
        moves = List.copyOf(moves);
        cycles = List.copyOf(cycles);
        setAside = List.copyOf(setAside);
        toPlug = List.copyOf(toPlug);
        steps = List.copyOf(steps);
    }

    /** Old cavities whose terminals leave their place on the way, in order. */
    public List<String> handled() {
        Set<String> out = new LinkedHashSet<>();
        for (Moves.Move m : moves) if (m.kind() != Moves.Kind.PARK) out.add(m.to());
        return List.copyOf(out);
    }

    /**
     * @param otherShell the new shell does not mate, so the terminals go into the old one
     * @param injectors the engine has injectors, whose circuits hold boosted voltage
     */
    static Transfer plan(PlugPair pair, boolean otherShell, boolean injectors) {
        Map<String, String> wanted = new LinkedHashMap<>();
        pair.leads().cavities().forEach((c, n) -> wanted.put(n, c));
        List<Moves.Move> moves = new ArrayList<>();
        List<List<String>> cycles = List.of();
        List<String> setAside = new ArrayList<>(pair.leads().extra());
        List<String> target = otherShell ? pair.old().cavities() : pair.neu().cavities();
        if (otherShell)
            for (String c : pair.old().cavities())
                wanted.entrySet().stream()
                        .filter(e -> e.getValue().equals(c))
                        .forEach(e -> moves.add(new Moves.Move(Moves.Kind.PLACE, e.getKey(), e.getKey(), c)));
        else {
            Set<String> occupied = new LinkedHashSet<>(pair.neu().leads().keySet());
            setAside.forEach(occupied::remove);
            // what carries a wire that could not be read must not stand in the way of a move either
            for (String c : pair.leads().unread())
                if (wanted.containsValue(c)) {
                    occupied.remove(c);
                    setAside.add(c);
                }
            Moves plan = Moves.plan(wanted, occupied, target);
            moves.addAll(plan.moves());
            cycles = plan.cycles();
        }
        List<String> empty = new ArrayList<>(target);
        empty.removeAll(pair.leads().cavities().keySet());
        List<String> toPlug = pair.old().sealed().orElse(true) ? empty : List.of();
        Shell shell = otherShell ? Shell.OLD : Shell.SAME;
        List<Step> steps = new TransferSteps(pair, injectors, shell, moves, setAside, toPlug).steps();
        return new Transfer(
                pair.old().id(), pair.neu().id(), pair.old().label(), shell, moves, cycles, setAside, toPlug, steps);
    }
}
