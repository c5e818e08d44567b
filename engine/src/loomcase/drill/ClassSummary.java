package loomcase.drill;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Consumer;
import loomcase.NaturalOrder;
import loomcase.journal.Digest;
import loomcase.journal.Fact;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/**
 * Many runs side by side.
 *
 * @param rows one a run, by student, then by when it was started
 */
public record ClassSummary(List<Row> rows) {

    /**
     * One run.
     *
     * @param student who played
     * @param drill name of the drill file
     * @param nth how many drills this student had started up to this one, itself included
     * @param difficulty word, empty when the drill does not say
     * @param started when
     * @param ending empty while it goes on
     * @param bill what was used up
     * @param money labour and parts
     * @param tests how many tests were made
     * @param hints how many hints were taken
     * @param harms how many harmful things were done
     * @param plannerMinutes minutes that the planner takes for the same drill
     * @param again whether this student had ended a run of the same drill before, and so could have read its answer
     */
    public record Row(
            String student,
            String drill,
            int nth,
            String difficulty,
            OffsetDateTime started,
            Optional<Ending> ending,
            Bill bill,
            BigDecimal money,
            int tests,
            int hints,
            int harms,
            double plannerMinutes,
            boolean again) {
        /** Minutes to the solution over the planner's; empty when it was not solved, for giving up soon is no speed. */
        public OptionalDouble ratio() {
            return ending.equals(Optional.of(Ending.SOLVED)) ? over() : OptionalDouble.empty();
        }

        /** Minutes to the end over the planner's; empty while the run goes on, when either took none, or when the answer was known. */
        public OptionalDouble over() {
            return ending.isPresent() && !again && bill.minutes() > 0 && plannerMinutes > 0
                    ? OptionalDouble.of(bill.minutes() / plannerMinutes)
                    : OptionalDouble.empty();
        }
    }

    public ClassSummary {
        rows = List.copyOf(rows);
    }

    /**
     * Sums up runs; each drill is played once by the planner.
     *
     * @param each told the number of the run being looked at, from 1
     */
    public static ClassSummary of(List<RunFile> runs, Consumer<Integer> each) {
        Map<Digest, Double> planner = new HashMap<>();
        Map<String, Integer> nth = new HashMap<>();
        Set<String> told = new HashSet<>();
        List<RunFile> sorted = new ArrayList<>(runs);
        sorted.sort(Comparator.comparing(ClassSummary::student, NaturalOrder.OF_NAMES)
                .thenComparing(r -> r.journal().entries().get(0).stamp().at().toInstant())
                .thenComparing(r -> r.file().toString(), NaturalOrder.OF_NAMES));
        List<Row> rows = new ArrayList<>();
        for (RunFile r : sorted) {
            each.accept(rows.size() + 1);
            double minutes = planner.computeIfAbsent(r.drill().digest(), d -> new Solver(r.bench())
                    .play(r.drill().truth(), r.drill().drill().first())
                    .bill()
                    .minutes());
            String who = student(r) + "\n" + r.drill().digest().hex();
            rows.add(row(r, nth.merge(student(r), 1, Integer::sum), minutes, told.contains(who)));
            if (r.run().ending().isPresent()) told.add(who);
        }
        return new ClassSummary(rows);
    }

    private static String student(RunFile r) {
        return r.journal().entries().get(0).stamp().by();
    }

    private static Row row(RunFile r, int nth, double plannerMinutes, boolean again) {
        Run run = r.run();
        return new Row(
                student(r),
                r.drill().file().getFileName().toString().replace(DrillFile.ENDING, ""),
                nth,
                r.drill().drill().difficulty(),
                r.journal().entries().get(0).stamp().at(),
                run.ending(),
                run.bill(),
                run.money(r.bench().circuit().costs()),
                (int) run.steps().stream()
                        .filter(s -> s.fact() instanceof Fact.Tested)
                        .count(),
                run.hints(),
                (int) run.marks().stream().filter(Mark::harmful).count(),
                plannerMinutes,
                again);
    }

    /** Each student's runs in order: the learning curve. */
    public Map<String, List<Row>> byStudent() {
        Map<String, List<Row>> out = new LinkedHashMap<>();
        for (Row r : rows)
            out.computeIfAbsent(r.student(), k -> new ArrayList<>()).add(r);
        return out;
    }

    /** The rows as CSV (RFC 4180), a heading first. */
    public String csv() {
        StringWriter out = new StringWriter();
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader(
                        "student",
                        "nth",
                        "drill",
                        "difficulty",
                        "started",
                        "ending",
                        "minutes",
                        "money",
                        "tests",
                        "hints",
                        "harms",
                        "planner_minutes",
                        "ratio",
                        "again")
                .get();
        try (CSVPrinter printer = new CSVPrinter(out, format)) {
            for (Row r : rows)
                printer.printRecord(
                        safe(r.student()),
                        r.nth(),
                        safe(r.drill()),
                        r.difficulty(),
                        r.started(),
                        r.ending().map(Ending::word).orElse("going-on"),
                        number(r.bill().minutes()),
                        r.money(),
                        r.tests(),
                        r.hints(),
                        r.harms(),
                        number(r.plannerMinutes()),
                        r.ratio().isPresent()
                                ? String.format(Locale.ROOT, "%.2f", r.ratio().getAsDouble())
                                : "",
                        r.again() ? "yes" : "no");
        } catch (IOException e) {
            throw new UncheckedIOException("a text in memory cannot fail to be written", e);
        }
        return out.toString();
    }

    /** A name that no spreadsheet takes for a formula. */
    private static String safe(String text) {
        return text.matches("[=+\\-@\\t\\r].*") ? "'" + text : text;
    }

    private static String number(double minutes) {
        return String.format(Locale.ROOT, "%.0f", minutes);
    }
}
