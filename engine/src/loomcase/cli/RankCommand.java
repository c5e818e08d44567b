package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.Answer;
import loomcase.draw.HarnessSvg;
import loomcase.json.RankJson;
import loomcase.rank.Ranking;
import picocli.CommandLine;

/** Ranks what may be wrong, from codes or a log. */
@CommandLine.Command(
        name = "rank",
        description = "Rank the places that best explain all codes together.",
        sortOptions = false,
        synopsisHeading = "",
        customSynopsis = {
            "Usage: loomcase rank --circuit FILE --codes SPN/FMI,... [OPTIONS]",
            "       loomcase rank --circuit FILE --log FILE [OPTIONS]",
            "       loomcase rank CASE [OPTIONS]"
        },
        footer = {
            "",
            "Examples:",
            "  loomcase rank --circuit circuits/teaching.json --codes 110/3,100/4x2",
            "  loomcase rank --circuit circuits/larch-13.json \\",
            "                --log demo-cases/five-volt-splice-open.log",
            "  loomcase rank --circuit circuits/teaching.json --codes 110/3 --why 1"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:settled: the first suspect has 50 %% or more",
            "1:not settled: no suspect has 50 %%",
            "2:bad input; one line says what and where",
            "3:a fault in Loomcase itself"
        })
final class RankCommand implements Callable<Integer> {
    /** Probability of the first suspect from which the exit code says that the matter is settled. */
    static final double SETTLED = 0.5;

    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private EvidenceInput evidence;

    @CommandLine.Option(
            names = "--why",
            paramLabel = "K",
            description = "open suspect K of the list: its faults, every piece of evidence, the pin values")
    private Integer why;

    @CommandLine.Option(
            names = "--all-pairs",
            description = "weigh every pair of faults that can matter, not the likeliest 48 by a quick rule; takes some"
                    + " seconds on a large harness")
    private boolean allPairs;

    @CommandLine.Option(names = "--json", description = "print JSON instead of text")
    private boolean json;

    @CommandLine.Option(
            names = "--svg",
            paramLabel = "FILE",
            description = "also write the harness as a picture, suspects marked")
    private Path svg;

    @CommandLine.Option(
            names = "--ascii",
            description = "draw the harness in plain ASCII, as is done by itself where the terminal is not UTF-8")
    private boolean ascii = Boolean.getBoolean("loomcase.ascii");

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        if (json && why != null)
            throw new InputProblem(
                    "--why is text for a person; --json holds all evidence already, so give one of them");
        Answer answer = allPairs ? evidence.answerWithAllPairs(err) : evidence.answer(err);
        List<Ranking.Suspect> suspects = answer.ranking().suspects();
        if (why != null && (why < 1 || why > suspects.size()))
            throw new InputProblem("--why " + why + ": "
                    + (suspects.isEmpty() ? "there is no suspect" : "there are suspects 1 to " + suspects.size()));
        if (svg != null) WholeFile.write(svg, HarnessSvg.draw(answer.circuit(), answer.layout(), answer.suspicion()));
        if (json) RankJson.of(answer).print(out);
        else if (why != null) new WhyText(answer).print(Page.of(out), why);
        else new RankText(answer, ascii).print(Page.of(out));
        out.flush();
        answer.keep();
        boolean settled = !suspects.isEmpty() && suspects.get(0).probability() >= SETTLED;
        return settled ? Main.ANSWER : Main.NOT_SETTLED;
    }
}
