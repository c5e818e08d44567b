package loomcase.job;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.print.Block;
import loomcase.print.Document;
import loomcase.print.Phrase;
import loomcase.print.Section;

/** The job sheet to print: what comes off, the plugs, the work, closing up; every line with a box to tick. */
public final class JobDocument {
    /** From so many steps on a caution that most of them bear is said once. */
    private static final int MANY = 4;

    private JobDocument() {}

    /**
     * The sheet.
     *
     * @param circuit the circuit the job is about
     * @param unit the machine, empty to write it in by hand
     * @param date the date it bears
     */
    public static Document of(Circuit circuit, JobSheet sheet, String unit, LocalDate date) {
        List<Section> sections = new ArrayList<>();
        sections.add(before(sheet));
        sections.add(new Section("Take off, in this order", steps(sheet.opening())));
        if (!sheet.unplugging().isEmpty())
            sections.add(new Section("Unplug, in this order", steps(sheet.unplugging())));
        sections.add(work(sheet));
        sections.add(new Section("Close up, in this order", steps(sheet.closing())));
        return new Document(
                "Job sheet",
                capital(sheet.work().words()),
                Locale.ENGLISH,
                date,
                List.of(
                        Block.Detail.of("Circuit", circuit.id() + ", " + circuit.title()),
                        Block.Detail.of("Data", circuit.origin()),
                        Block.Detail.of("Unit", unit),
                        Block.Detail.blank("Done by, date")),
                sections,
                "Job sheet, " + circuit.id());
    }

    private static Section before(JobSheet sheet) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(
                Block.Paragraph.of(
                        Phrase.strong(
                                sheet.accessMinutes() > 0
                                        ? String.format(
                                                Locale.ROOT,
                                                "%.0f minutes of access are still to come.",
                                                sheet.accessMinutes())
                                        : "Nothing has to be opened any more."),
                        Phrase.of(
                                "The minutes beside a step include putting it back. A step shared by several places stands once.")));
        if (!sheet.alreadyOpen().isEmpty())
            blocks.add(
                    Block.Paragraph.of("Open already, not counted: " + String.join(", ", sheet.alreadyOpen()) + "."));
        Set<String> tools = new LinkedHashSet<>();
        for (List<Task> part : List.of(sheet.opening(), sheet.working(), sheet.closing()))
            part.forEach(t -> tools.addAll(t.tools()));
        if (!tools.isEmpty())
            blocks.add(Block.Paragraph.of("Besides the usual hand tools: " + String.join(", ", tools) + "."));
        return new Section("Before you begin", blocks);
    }

    private static Section work(JobSheet sheet) {
        List<Block> blocks = new ArrayList<>();
        if (!(sheet.work() instanceof Work.Repair))
            blocks.add(Block.Paragraph.of("Lay from the control unit outwards, at a junction the longest part first: no"
                    + " branch has to be threaded under another. Plugs follow as the branches lie, the control unit's last"
                    + " (common practice, no source)."));
        blocks.addAll(steps(sheet.working()));
        return new Section(sheet.work() instanceof Work.Repair ? "Do the work" : "Lay and plug, in this order", blocks);
    }

    /** Cautions that stand at most of the steps are said once above them, so that the others are seen. */
    private static List<Block> steps(List<Task> tasks) {
        Map<String, Integer> times = new LinkedHashMap<>();
        tasks.forEach(t -> t.cautions().forEach(c -> times.merge(c, 1, Integer::sum)));
        Set<String> common = new LinkedHashSet<>();
        if (tasks.size() >= MANY)
            times.forEach((caution, n) -> {
                if (2 * n > tasks.size()) common.add(caution);
            });
        List<Block> out = new ArrayList<>();
        common.forEach(c -> out.add(new Block.Caution(c)));
        out.add(new Block.Steps(tasks.stream()
                .map(t -> new Block.Step(
                        Phrase.of(t.words()),
                        t.minutes(),
                        t.tools(),
                        t.cautions().stream().filter(c -> !common.contains(c)).toList(),
                        Optional.empty()))
                .toList()));
        return out;
    }

    private static String capital(String text) {
        return text.isEmpty() ? text : Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }
}
