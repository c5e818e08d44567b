package loomcase.predict;

/**
 * What a fault does to the watches of one operating point: entries {@code from} to {@code to} of two arrays.
 *
 * @param watch numbers of the watches whose probability differs from the healthy one, ascending
 * @param probability of their conditions, in the same order
 * @param from first entry
 * @param to one past the last
 * @param settled false when the network found no consistent state
 */
record PointRow(int[] watch, double[] probability, int from, int to, boolean settled) {
    boolean isEmpty() {
        return from == to;
    }
}
