package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import loomcase.web.WebServer;
import picocli.CommandLine;

/** Serves the page of a folder of cases. */
@CommandLine.Command(
        name = "serve",
        description = {
            "Serve a page for a folder of cases, on this computer only, until Ctrl-C.",
            "Nothing is fetched from outside. Everything that is recorded stands in the case files at once.",
            "New cases are offered the circuit named, those in the folder, and those that its cases use."
        },
        footer = {"", "Example:", "  loomcase serve --circuit circuits/larch-13.json my-cases"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:stopped", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class ServeCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "FOLDER", arity = "0..1", description = "folder of cases; otherwise this one")
    private Path folder = Path.of("");

    @CommandLine.Option(
            names = "--port",
            paramLabel = "N",
            description = "port on 127.0.0.1, 0 for any free one; otherwise ${DEFAULT-VALUE}")
    private int port = 8713;

    /** Its circuit is offered for new cases. */
    @CommandLine.Mixin
    private CircuitInput input;

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() throws InterruptedException {
        WebServer.Options options = new WebServer.Options(
                folder, port, input.file().stream().toList(), input.casework(), System.getProperty("user.name"));
        try (WebServer server = WebServer.start(options)) {
            PrintWriter out = spec.commandLine().getOut();
            out.println("loomcase: the page is at " + server.address() + " on this computer; Ctrl-C stops it");
            out.flush();
            new CountDownLatch(1).await();
        }
        return Main.ANSWER;
    }
}
