package loomcase.claim;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import loomcase.InputProblem;
import loomcase.casework.CaseFile;
import loomcase.casework.Casework;
import loomcase.journal.Digest;
import loomcase.journal.JournalFile;
import loomcase.policy.ClaimGap;
import loomcase.print.Phrase;
import loomcase.print.Wording;

/**
 * A folder of cases against the claim rules; a case that cannot be read is a row of its own and stops nothing.
 *
 * @param rows one a case, by file name
 */
public record Audit(List<Row> rows) {
    public Audit {
        rows = List.copyOf(rows);
    }

    /**
     * One case.
     *
     * @param file name of the case file
     * @param unit id of the machine, empty when not said
     * @param problem why it cannot be read, such as the line that was edited; empty when it can
     * @param blocks what blocks it, rules' words
     * @param questioned what will be asked
     * @param nice what would make it stronger
     * @param contradictions where it contradicts itself, that another file of the folder holds the same case among it
     * @param total labour and priced parts with the currency label, empty when it cannot be read
     */
    public record Row(
            String file,
            String unit,
            Optional<String> problem,
            List<String> blocks,
            List<String> questioned,
            List<String> nice,
            List<String> contradictions,
            Optional<Packet.Bill> total) {
        public Row {
            blocks = List.copyOf(blocks);
            questioned = List.copyOf(questioned);
            nice = List.copyOf(nice);
            contradictions = List.copyOf(contradictions);
        }

        /** In plain words: {@code can be sent}, {@code lacks something}, {@code contradicts itself}, {@code not readable}. */
        public String answer() {
            if (problem.isPresent()) return "not readable";
            if (!contradictions.isEmpty()) return "contradicts itself";
            return blocks.isEmpty() ? "can be sent" : "lacks something";
        }

        /** Whether it can be sent as it stands. */
        public boolean claimable() {
            return problem.isEmpty() && blocks.isEmpty() && contradictions.isEmpty();
        }
    }

    /**
     * Money of all that can be sent as it stands, by currency.
     *
     * @return sums by currency label, in the order in which they come
     */
    public Map<String, BigDecimal> ready() {
        Map<String, BigDecimal> out = new LinkedHashMap<>();
        rows.stream()
                .filter(Row::claimable)
                .flatMap(r -> r.total().stream())
                .forEach(b -> out.merge(b.currency(), b.total(), BigDecimal::add));
        return out;
    }

    /** How many can be sent as they stand. */
    public int claimable() {
        return (int) rows.stream().filter(Row::claimable).count();
    }

    /** True when every case can be sent. */
    public boolean allClaimable() {
        return rows.stream().allMatch(Row::claimable);
    }

    /**
     * Audits every case file of a folder, not of folders in it.
     *
     * @throws InputProblem when the folder cannot be read or holds no case
     */
    public static Audit of(Casework casework, Path folder, Locale language) {
        List<Path> files;
        try (Stream<Path> all = Files.list(folder)) {
            files = all.filter(f -> f.getFileName().toString().endsWith(CaseFile.ENDING))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new InputProblem(folder + ": is no folder that can be read", e);
        }
        if (files.isEmpty()) throw new InputProblem(folder + ": holds no case; a case file ends in " + CaseFile.ENDING);
        Map<Path, Optional<Digest>> openings = new LinkedHashMap<>();
        for (Path file : files) openings.put(file, opening(file));
        List<Row> rows = new ArrayList<>();
        for (Path file : files) {
            Optional<Digest> own = openings.get(file);
            List<String> same = files.stream()
                    .filter(f -> !f.equals(file)
                            && own.isPresent()
                            && openings.get(f).equals(own))
                    .map(Audit::name)
                    .toList();
            rows.add(row(casework, file, language, same));
        }
        return new Audit(rows);
    }

    private static String name(Path file) {
        return file.getFileName().toString();
    }

    /** The first line's digest, which a copy of a case shares however each went on; empty when the case cannot be read. */
    private static Optional<Digest> opening(Path file) {
        try {
            return Optional.of(JournalFile.read(file).entries().get(0).digest());
        } catch (InputProblem e) {
            return Optional.empty(); // its row says why
        }
    }

    private static Row row(Casework casework, Path file, Locale language, List<String> same) {
        String name = name(file);
        try {
            Packet p = PacketMaker.of(casework.open(file), language);
            return new Row(
                    name,
                    p.about().opened().unit().orElse(""),
                    Optional.empty(),
                    texts(p, ClaimGap.Severity.BLOCKS),
                    texts(p, ClaimGap.Severity.QUESTIONED),
                    texts(p, ClaimGap.Severity.NICE),
                    Stream.concat(twice(same, language), p.contradictions().stream())
                            .map(Audit::cited)
                            .toList(),
                    Optional.of(p.bill()));
        } catch (InputProblem e) {
            return new Row(
                    name,
                    "",
                    Optional.of(e.getMessage().replace(file + ": ", "")),
                    List.of(),
                    List.of(),
                    List.of(),
                    List.of(),
                    Optional.empty());
        }
    }

    private static Stream<Phrase> twice(List<String> same, Locale language) {
        Wording words = Wording.of(Audit.class, language);
        return same.stream()
                .map(other -> Phrase.of(words.say("against.twice", other)).from(1));
    }

    private static String cited(Phrase phrase) {
        return phrase.text() + " " + phrase.lines();
    }

    private static List<String> texts(Packet p, ClaimGap.Severity severity) {
        return p.outcome().gaps(severity).stream().map(ClaimGap::text).toList();
    }
}
