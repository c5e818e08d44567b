package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import loomcase.casework.Shop;
import loomcase.web.WebServer;
import picocli.CommandLine;

/** Serves the page of a folder of cases. */
@CommandLine.Command(
        name = "serve",
        description = {
            "Serve a page for a folder of cases, on this computer only, until Ctrl-C.",
            "Nothing is fetched from outside. Everything that is recorded stands in the case files at once."
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

    @CommandLine.Option(
            names = "--circuit",
            paramLabel = "FILE,...",
            split = ",",
            hideParamSyntax = true,
            description = "circuit files to offer for new cases, besides those in the folder and in use there")
    private List<Path> circuits = List.of();

    @CommandLine.Option(
            names = "--rules",
            paramLabel = "FOLDER",
            description = "the shop's own rules, laid over the built-in ones")
    private Path rules;

    @CommandLine.Option(
            names = "--priors",
            paramLabel = "FILE",
            description = "the shop's own base rates (CSV), laid over the built-in ones")
    private Path priors;

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() throws InterruptedException {
        // The server's library looks for a logger of its own choice; its only news is what is said below.
        System.setProperty("org.jboss.logging.provider", "slf4j");
        Shop shop = new Shop(Optional.ofNullable(rules), Optional.ofNullable(priors));
        try (WebServer server =
                WebServer.start(new WebServer.Options(folder, port, circuits, shop, System.getProperty("user.name")))) {
            PrintWriter out = spec.commandLine().getOut();
            out.println("loomcase: the page is at " + server.address() + " on this computer; Ctrl-C stops it");
            out.flush();
            new CountDownLatch(1).await();
        }
        return Main.ANSWER;
    }
}
