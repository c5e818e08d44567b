package loomcase.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import loomcase.casework.Answer;
import loomcase.casework.Casework;
import loomcase.json.NextJson;
import loomcase.rank.Ranking;
import picocli.CommandLine;

/** Says which test to take next in a case. */
@CommandLine.Command(
        name = "next",
        description = "Say which test buys most for the least work, and what each outcome would mean.",
        footer = {"", "Example:", "  loomcase next case.jsonl"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:settled: no test is worth its minutes any more",
            "1:not settled: take the test",
            "2:bad input; one line says what and where",
            "3:a fault in Loomcase itself"
        })
final class NextCommand implements Callable<Integer> {
    private static final int OTHERS = 4;

    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "CASE", description = "case file")
    private Path file;

    @CommandLine.Option(names = "--json", description = "print JSON instead of text")
    private boolean json;

    @CommandLine.Mixin
    private CircuitInput input;

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() {
        Casework casework = input.casework();
        Answer answer = ProgressLine.watch(
                casework.open(file).answer(), spec.commandLine().getErr());
        if (json) NextJson.whole(answer, 1 + OTHERS).print(spec.commandLine().getOut());
        else text(answer);
        spec.commandLine().getOut().flush();
        answer.keep();
        return answer.next().isEmpty() ? Main.ANSWER : Main.NOT_SETTLED;
    }

    private void text(Answer answer) {
        Page page = Page.of(spec.commandLine().getOut());
        for (Ranking.Suspect s : answer.ranking().suspects().stream().limit(3).toList())
            page.line(
                    "  " + Percent.of(s.probability()) + " " + RankText.alike(s, "not told apart yet") + s.words(), 9);
        page.line(
                "  " + Percent.of(answer.ranking().unexplained()) + " nothing in this model explains what was seen", 9);
        page.line("  " + Percent.of(answer.ranking().hidden()) + " " + RankText.HIDDEN, 9);
        page.line();
        page.line("NEXT TEST");
        NextText text = new NextText(answer);
        text.first(page);
        text.others(page, OTHERS);
    }
}
