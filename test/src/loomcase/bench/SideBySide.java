package loomcase.bench;

import loomcase.solve.SolverComparison;

/**
 * One table: what a hypothesis costs us, other libraries and ngspice, and how ranking grows with the harness.
 *
 * <p>Run from the project folder: {@code java -Xmx4g -cp "target/test-classes:target/classes:$(cat
 * target/test-classpath.txt)" loomcase.bench.SideBySide}, the class path file written by {@code mvn -q
 * dependency:build-classpath -Dmdep.outputFile=target/test-classpath.txt}. Quote ratios of one run; ngspice must be
 * installed.
 */
public final class SideBySide {
    private SideBySide() {}

    public static void main(String[] arguments) throws Exception {
        SolverComparison.print();
        if (arguments.length == 0 || !arguments[0].equals("solvers")) Growth.print(8);
    }
}
