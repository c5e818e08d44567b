package loomcase.study;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import loomcase.model.Edit;
import loomcase.model.OperatingPoint;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Ngspice;
import loomcase.solve.Solution;

/** Where the voltages of a case come from. */
interface Truth {
    /**
     * Solves every phase of an operating point for many cases.
     *
     * @param at the operating point
     * @param cases edits of each case
     * @return for each case the network of each phase; empty when it has no single operating point
     */
    List<Optional<Map<String, Solution>>> solve(OperatingPoint at, List<List<Edit>> cases);

    /** Our own solver, every network factorised from nothing. */
    record Own(NetworkSolver solver) implements Truth {
        @Override
        public List<Optional<Map<String, Solution>>> solve(OperatingPoint at, List<List<Edit>> cases) {
            List<Optional<Map<String, Solution>>> out = new ArrayList<>();
            for (List<Edit> edits : cases) {
                Map<String, Solution> phases = new LinkedHashMap<>();
                for (OperatingPoint.Phase p : at.phases())
                    phases.put(p.id(), solver.at(at.id(), p.id()).solveAfresh(edits));
                out.add(Optional.of(phases).filter(all -> all.values().stream().allMatch(Solution::settled)));
            }
            return out;
        }
    }

    /** The same circuits as decks through ngspice, an independent simulator. */
    record Independent(NetworkSolver solver) implements Truth {
        @Override
        public List<Optional<Map<String, Solution>>> solve(OperatingPoint at, List<List<Edit>> cases) {
            List<NetworkSolver.Instant> instants =
                    at.phases().stream().map(p -> solver.at(at.id(), p.id())).toList();
            List<String> decks = new ArrayList<>();
            List<Integer> nodes = new ArrayList<>();
            for (List<Edit> edits : cases)
                for (NetworkSolver.Instant each : instants) {
                    decks.add(each.spiceDeck(edits));
                    nodes.add(each.nodes());
                }
            List<Optional<double[]>> volts = run(decks, nodes);
            List<Optional<Map<String, Solution>>> out = new ArrayList<>();
            for (int c = 0; c < cases.size(); c++) {
                Map<String, Solution> phases = new LinkedHashMap<>();
                for (int p = 0; p < instants.size(); p++) {
                    Optional<double[]> found = volts.get(c * instants.size() + p);
                    if (found.isPresent())
                        phases.put(at.phases().get(p).id(), instants.get(p).solved(cases.get(c), found.get()));
                }
                out.add(Optional.of(phases).filter(all -> all.size() == instants.size()));
            }
            return out;
        }

        private static List<Optional<double[]>> run(List<String> decks, List<Integer> nodes) {
            try {
                Path folder = Files.createTempDirectory("loomcase-study");
                try {
                    return Ngspice.run(folder, decks, nodes);
                } finally {
                    try (Stream<Path> files = Files.walk(folder)) {
                        for (Path each : files.sorted(Comparator.reverseOrder()).toList()) Files.delete(each);
                    }
                }
            } catch (IOException e) {
                throw new IllegalStateException("ngspice cannot be run: " + e.getMessage(), e);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new IllegalStateException("stopped while ngspice ran", e);
            }
        }
    }
}
