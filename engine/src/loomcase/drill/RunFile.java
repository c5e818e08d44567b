package loomcase.drill;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.casework.CaseFile;
import loomcase.casework.Casework;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.JournalFile;

/**
 * A student's run on disk. It is a case file like any other, so it is chained, survives a kill, and lets one writer at a time
 * add; its second line names the drill.
 */
public final class RunFile {
    private final Path file;
    private final DrillFile drill;
    private final Bench bench;
    private final Workshop workshop;
    private Journal journal;
    private Run run;

    private RunFile(Path file, DrillFile drill, Bench bench, Journal journal) {
        this.file = file;
        this.drill = drill;
        this.bench = bench;
        this.workshop = new Workshop(bench, drill.drill(), drill.truth());
        this.journal = journal;
        this.run = Run.of(workshop, journal);
    }

    /**
     * Starts a run: a new file with the complaint, the drill and the first codes.
     *
     * @throws InputProblem when either file cannot be used
     */
    public static RunFile start(Casework casework, DrillFile drill, Path file, Entry.Stamp stamp) {
        if (!file.toString().endsWith(CaseFile.ENDING))
            throw new InputProblem(file + ": a run file ends in " + CaseFile.ENDING);
        drill.truth(); // a drill that does not open must not leave a run behind
        Path circuit = drill.circuit();
        Fact.Opened opened = new Fact.Opened(
                CaseFile.name(file, circuit), drill.drill().complaint(), Optional.of("drill"), OptionalDouble.empty());
        JournalFile.create(file, opened, stamp);
        JournalFile.append(file, RunNote.file(CaseFile.fromFolderOf(file, drill.file()), drill.digest()), stamp);
        JournalFile.append(file, drill.drill().first(), stamp);
        return open(casework, file);
    }

    /** Whether a case is the run of a drill. */
    public static boolean isRun(Journal journal) {
        return journal.entries().size() > 1
                && RunNote.fileName(journal.entries().get(1).fact()).isPresent();
    }

    /**
     * Opens a run.
     *
     * @throws InputProblem when it is no run, or drill or circuit are not those it was started with
     */
    public static RunFile open(Casework casework, Path file) {
        Journal journal = JournalFile.read(file);
        List<Entry> lines = journal.entries();
        Optional<String> name = lines.size() < 2
                ? Optional.empty()
                : RunNote.fileName(lines.get(1).fact());
        if (name.isEmpty()) throw new InputProblem(file + ": is no run of a drill; start one with: drill start");
        DrillFile drill = DrillFile.read(file.resolveSibling(name.get()));
        Optional<Digest> digest = RunNote.digest(lines.get(1).fact());
        if (!digest.equals(Optional.of(drill.digest())))
            throw new InputProblem(file + ": drill " + drill.file() + " is not the one that the run was started with");
        if (lines.size() < Run.FIRST_LINES)
            throw new InputProblem(file + ": was cut off while it was started; delete it and start the run again");
        return new RunFile(file, drill, casework.circuit(drill.circuit()), journal);
    }

    /** The file. */
    public Path file() {
        return file;
    }

    /** The drill. */
    public DrillFile drill() {
        return drill;
    }

    /** The circuit with what was solved about it. */
    public Bench bench() {
        return bench;
    }

    /** What answers requests. */
    public Workshop workshop() {
        return workshop;
    }

    /** The lines. */
    public Journal journal() {
        return journal;
    }

    /** How the run stands. */
    public Run run() {
        return run;
    }

    /**
     * Does what is asked for and writes it down.
     *
     * @return the step it became
     * @throws InputProblem when it cannot be done
     * @throws JournalFile.Overtaken when somebody else added a line meanwhile; nothing was added
     */
    public Run.Step act(Request request, Entry.Stamp stamp) {
        int line = journal.entries().size() + 1;
        Fact fact = workshop.answer(run, request, line);
        // What the engine showed is so, however odd: nobody could look again and see otherwise.
        JournalFile.appendAfter(journal.last(), file, fact, workshop.check().confirming(fact, stamp));
        journal = JournalFile.read(file);
        run = run.after(workshop, line, fact);
        return run.steps().get(run.steps().size() - 1);
    }
}
