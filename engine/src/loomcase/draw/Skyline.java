package loomcase.draw;

import java.util.Arrays;

/**
 * The upper and lower outline of something already laid out, over columns of {@value #COLUMN} pixels.
 *
 * <p>Two outlines that are kept apart in every column cannot overlap, which is how the tree is packed without crossings;
 * cost of each operation: linear in the columns.
 */
final class Skyline {
    private static final double COLUMN = 4;

    private double[] top = new double[0];
    private double[] bottom = new double[0];

    /** Adds a rectangle; y grows downward. */
    void add(double left, double right, double upper, double lower) {
        int first = (int) Math.floor(Math.max(0, left) / COLUMN);
        int last = (int) Math.floor(Math.max(0, right) / COLUMN);
        grow(last + 1);
        for (int i = first; i <= last; i++) {
            top[i] = Math.min(top[i], upper);
            bottom[i] = Math.max(bottom[i], lower);
        }
    }

    /** Adds another outline moved down by {@code dy}. */
    void add(Skyline other, double dy) {
        grow(other.top.length);
        for (int i = 0; i < other.top.length; i++) {
            top[i] = Math.min(top[i], other.top[i] + dy);
            bottom[i] = Math.max(bottom[i], other.bottom[i] + dy);
        }
    }

    /** How far another outline must move down to lie below this one; negative infinity when they share no column. */
    double below(Skyline other) {
        double dy = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < Math.min(top.length, other.top.length); i++) dy = Math.max(dy, bottom[i] - other.top[i]);
        return dy;
    }

    /** Highest point, infinite when empty. */
    double highest() {
        return Arrays.stream(top).min().orElse(Double.POSITIVE_INFINITY);
    }

    /** Lowest point, negative infinite when empty. */
    double lowest() {
        return Arrays.stream(bottom).max().orElse(Double.NEGATIVE_INFINITY);
    }

    private void grow(int columns) {
        int old = top.length;
        if (columns <= old) return;
        top = Arrays.copyOf(top, columns);
        bottom = Arrays.copyOf(bottom, columns);
        Arrays.fill(top, old, columns, Double.POSITIVE_INFINITY);
        Arrays.fill(bottom, old, columns, Double.NEGATIVE_INFINITY);
    }
}
