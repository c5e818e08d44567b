package loomcase.solve;

/** What watches read of a solved network. */
public interface NodeVolts {
    /** Voltage against the chassis of a node found by {@link NetworkSolver.Instant#node}. */
    double at(int node);

    /** Current in amperes through a driver found by {@link NetworkSolver.Instant#driver}; 0 when it is off. */
    double amperes(int driver);
}
