package loomcase.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.draw.HarnessSvg;
import loomcase.intake.Intake;
import loomcase.j1939.CodeList;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.plan.NextTest;
import loomcase.policy.PolicyOutcome;
import loomcase.rank.Ranker;
import loomcase.rank.Ranking;
import picocli.CommandLine;

/** Ranks what may be wrong, from codes or a log. */
@CommandLine.Command(
        name = "rank",
        description = "Rank the places that best explain all codes together.",
        mixinStandardHelpOptions = true)
final class RankCommand implements Callable<Integer> {
    /** Probability of the first suspect from which the exit code says that the matter is settled. */
    static final double SETTLED = 0.5;

    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private CircuitInput input;

    @CommandLine.Mixin
    private LogInput logInput;

    @CommandLine.Option(names = "--log", paramLabel = "FILE", description = "CAN log in a candump text form")
    private Path log;

    @CommandLine.Option(
            names = "--codes",
            paramLabel = "SPN/FMI,...",
            description = "active codes, with counts where known: 110/3,100/4x2")
    private String codes = "";

    @CommandLine.Option(names = "--stored", paramLabel = "SPN/FMI,...", description = "codes stored but not active")
    private String stored = "";

    @CommandLine.Option(
            names = "--at",
            paramLabel = "POINT",
            split = ",",
            description = "operating points at which codes were looked for, such as key-on,idle-warm")
    private List<String> at = List.of();

    @CommandLine.Option(names = "--json", description = "print JSON instead of text")
    private boolean json;

    @CommandLine.Option(names = "--why", paramLabel = "K", description = "open suspect K: every piece of evidence")
    private int why;

    @CommandLine.Option(
            names = "--svg",
            paramLabel = "FILE",
            description = "write the harness as a picture, suspects marked")
    private Path svg;

    @CommandLine.Option(names = "--ascii", description = "draw the harness in plain ASCII")
    private boolean ascii;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        if ((log == null) == (codes.isBlank() && stored.isBlank()))
            throw new InputProblem("give either --log FILE or --codes SPN/FMI,... (with --stored if any)");
        Circuit circuit = input.circuit();
        Intake intake = log == null
                ? Intake.typed(circuit, CodeList.parse(codes), CodeList.parse(stored), at)
                : Intake.fromLog(circuit, logInput.read(log, err), at);
        PolicyOutcome policy = input.policy(circuit);
        Ranker ranker = new Ranker(circuit, input.priors(), policy);
        ProgressLine progress = ProgressLine.of("weighing hypotheses", err);
        Ranking ranking = ranker.rank(intake.evidence(), progress::share);
        progress.clear();
        if (why < 0 || why > ranking.suspects().size())
            throw new InputProblem("--why " + why + ": there are suspects 1 to "
                    + ranking.suspects().size());
        Optional<NextTest> next = NextTest.choose(circuit, ranker.solver(), ranking);
        Answer answer = new Answer(circuit, new Layout(circuit), intake, ranking, next, policy);
        if (svg != null) write(svg, HarnessSvg.draw(circuit, answer.layout(), Drawing.suspicion(answer)));
        if (json) new RankJson(answer).print(out);
        else if (why > 0) new WhyText(answer, ranker).print(out, why);
        else new RankText(answer, ascii).print(out);
        out.flush();
        boolean settled =
                !ranking.suspects().isEmpty() && ranking.suspects().get(0).probability() >= SETTLED;
        return settled ? Main.ANSWER : Main.NOT_SETTLED;
    }

    private static void write(Path file, String text) {
        try {
            Files.writeString(file, text);
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be written: " + e.getMessage(), e);
        }
    }
}
