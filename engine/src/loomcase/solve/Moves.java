package loomcase.solve;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * The search for regions that agree with the voltages they give.
 *
 * <p>Each turn moves every part that is outside its region by one border towards the region its voltages call for. When a
 * combination comes back, only the part farthest outside is moved each turn; when a combination comes back then too, no
 * combination agrees along this way and the search ends: a relay whose contact takes away its own coil voltage chatters
 * for ever. Sources: J. Katzenelson, "An algorithm for solving nonlinear resistor networks", Bell System Technical
 * Journal 44 (1965), for moving over one border at a time; the restart by single moves is our own.
 */
final class Moves {
    /** Volts outside its region at which a part stays where it is. */
    static final double SLACK = 1e-9;

    private static final int MOST = 400;

    private final Set<Integer> seen = new HashSet<>();
    private final Set<Integer> seenSingly = new HashSet<>();
    private boolean singly;
    private int turns;

    /**
     * Moves parts once.
     *
     * @param regions overwritten
     * @return false when nothing has moved, because all parts agree or none ever will
     */
    boolean next(List<Part> parts, int[] regions, double[] volts) {
        if (++turns > MOST) return false;
        int combination = Arrays.hashCode(regions);
        if (!singly && !seen.add(combination)) singly = true;
        if (singly && !seenSingly.add(combination)) return false;
        return singly ? moveWorst(parts, regions, volts) : moveAll(parts, regions, volts);
    }

    private static boolean moveAll(List<Part> parts, int[] regions, double[] volts) {
        boolean moved = false;
        for (int p = 0; p < regions.length; p++) {
            Part part = parts.get(p);
            if (part.violation(regions[p], volts) <= SLACK) continue;
            regions[p] = part.towards(regions[p], volts);
            moved = true;
        }
        return moved;
    }

    private static boolean moveWorst(List<Part> parts, int[] regions, double[] volts) {
        int worst = -1;
        double most = SLACK;
        for (int p = 0; p < regions.length; p++) {
            double outside = parts.get(p).violation(regions[p], volts);
            if (outside <= most) continue;
            most = outside;
            worst = p;
        }
        if (worst < 0) return false;
        regions[worst] = parts.get(worst).towards(regions[worst], volts);
        return true;
    }
}
