package loomcase.draw;

import java.util.List;
import java.util.Optional;
import loomcase.model.Branch;
import loomcase.model.PlaceId;

/**
 * The harness as a tree to be drawn, control unit first; every connector, device, splice, ground, fuse and branch of the
 * circuit stands in it exactly once.
 *
 * @param unitPlugs plugs of the control unit at the root, with their cavities
 * @param trees the tree that hangs on the control unit, then any that no branch joins to it
 * @param engine true engine conditions that are suspected: no place on the harness
 */
record Loom(List<List<Part>> unitPlugs, List<Junction> trees, List<Part> engine) {

    /** What a part looks like. */
    enum Shape {
        PLUG,
        CELL,
        DEVICE,
        GROUND,
        FUSE,
        SPLICE,
        RUB,
        WIRE,
        BRANCH,
        ENGINE
    }

    /**
     * One thing to draw.
     *
     * @param place what it is in the model; empty for a rub point, which is no place of its own
     * @param id short text on it
     * @param label full words
     */
    record Part(Optional<PlaceId> place, Shape shape, String id, String label) {
        static Part of(PlaceId.Kind kind, Shape shape, String id, String label) {
            return new Part(Optional.of(new PlaceId(kind, id)), shape, id, label);
        }
    }

    /** A row that hangs on a junction: one or more parts in line, and words. */
    record Leaf(List<Part> parts, String words) {
        Leaf {
            parts = List.copyOf(parts);
        }
    }

    /** A part on a branch, {@code metres} from the end that is nearer the control unit. */
    record Stop(Part part, double metres) {}

    /** A branch seen from the control unit. {@code reversed}: its metre zero is the far end. */
    record Limb(Branch branch, boolean reversed, int wires, List<Stop> stops, Junction far) {
        /** Distance from the near end of a point given in metres along the branch. */
        double out(double metresAlong) {
            return reversed ? branch.metres() - metresAlong : metresAlong;
        }
    }

    /** Where branches meet. */
    record Junction(String id, List<Leaf> leaves, List<Limb> limbs) {}
}
