package loomcase.cli;

import java.io.PrintWriter;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.Advice;
import loomcase.casework.Answer;
import loomcase.json.VerdictJson;
import loomcase.verdict.Verdict;
import picocli.CommandLine;

/** Says what to do: repair in place, replace a section, replace the harness, or test first. */
@CommandLine.Command(
        name = "verdict",
        description = "Say what to do: repair in place, a section, the whole harness, or which test first.",
        sortOptions = false,
        synopsisHeading = "",
        customSynopsis = {
            "Usage: loomcase verdict CASE [OPTIONS]",
            "       loomcase verdict --circuit FILE --codes SPN/FMI,... [OPTIONS]",
            "       loomcase verdict --circuit FILE --log FILE [OPTIONS]"
        },
        footer = {
            "",
            "Examples:",
            "  loomcase verdict demo-cases/shared-splice.jsonl",
            "  loomcase verdict --circuit circuits/teaching.json --codes 110/3 --labour-rate 95",
            "  loomcase verdict demo-cases/shared-splice.jsonl --svg sweep.svg"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:settled: do this",
            "1:not settled: test first, or ask",
            "2:bad input; one line says what and where",
            "3:a fault in Loomcase itself"
        })
final class VerdictCommand implements Callable<Integer> {
    private static final double MOST_PER_HOUR = 1e7;

    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private EvidenceInput evidence;

    @CommandLine.Option(
            names = "--labour-rate",
            paramLabel = "MONEY",
            description = "labour for an hour, in the circuit file's currency; the circuit file's own if not given")
    private BigDecimal labour;

    @CommandLine.Option(
            names = "--downtime-rate",
            paramLabel = "MONEY",
            description = "what an hour of standing still costs the owner; the circuit file's own if not given")
    private BigDecimal downtime;

    @CommandLine.Option(
            names = "--repair-costs",
            paramLabel = "FILE",
            description = "the shop's own minutes and rates of success (CSV), laid over the built-in ones")
    private Path repairCosts;

    @CommandLine.Option(names = "--json", description = "print JSON instead of text")
    private boolean json;

    @CommandLine.Option(
            names = "--svg",
            paramLabel = "FILE",
            description = "also write a picture: the answer over damaged circuits and labour rate")
    private Path svg;

    @CommandLine.Option(
            names = "--ascii",
            description = "draw bars in plain ASCII, as is done by itself where the terminal is not UTF-8")
    private boolean ascii = Boolean.getBoolean("loomcase.ascii");

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        Advice advice = new Advice(
                Optional.ofNullable(repairCosts), rate("--labour-rate", labour), rate("--downtime-rate", downtime));
        advice.figures();
        Answer answer = evidence.answer(spec.commandLine().getErr());
        Verdict verdict = answer.verdict(advice);
        if (svg != null) WholeFile.write(svg, SweepDrawing.draw(answer.sweep(advice), answer.circuit()));
        if (json) VerdictJson.of(answer, verdict).print(out);
        else new VerdictText(answer, verdict, ascii).print(Page.of(out));
        out.flush();
        answer.keep();
        return verdict.settled() ? Main.ANSWER : Main.NOT_SETTLED;
    }

    private static OptionalDouble rate(String option, BigDecimal given) {
        if (given == null) return OptionalDouble.empty();
        double value = given.doubleValue();
        if (!(value >= 0 && value <= MOST_PER_HOUR))
            throw new InputProblem(option + " " + given.toPlainString() + " is not within 0 to 10000000 an hour");
        return OptionalDouble.of(value);
    }
}
