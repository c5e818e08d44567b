package loomcase.predict;

import java.util.BitSet;
import java.util.function.UnaryOperator;

/**
 * What a fault by itself touches: numbers of watches, or of the codes that they show or keep from being shown.
 *
 * @param much moved by a good part of the way to the limit
 * @param slightly moved by a little or more
 * @param near so near the limit under this fault that a little more or less matters
 * @param supply whether the control unit's supply is moved by a good part of the way to the least that it works with
 */
public record Touched(BitSet much, BitSet slightly, BitSet near, boolean supply) {
    static Touched none() {
        return new Touched(new BitSet(), new BitSet(), new BitSet(), false);
    }

    Touched and(Touched other) {
        return new Touched(
                union(much, other.much),
                union(slightly, other.slightly),
                union(near, other.near),
                supply || other.supply);
    }

    Touched of(UnaryOperator<BitSet> each) {
        return new Touched(each.apply(much), each.apply(slightly), each.apply(near), supply);
    }

    private static BitSet union(BitSet a, BitSet b) {
        BitSet out = (BitSet) a.clone();
        out.or(b);
        return out;
    }
}
