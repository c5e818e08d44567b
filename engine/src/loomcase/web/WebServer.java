package loomcase.web;

import io.undertow.Undertow;
import io.undertow.UndertowOptions;
import io.undertow.server.handlers.BlockingHandler;
import java.net.BindException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.List;
import loomcase.InputProblem;
import loomcase.casework.Casework;

/**
 * Entry of this face: the page of one folder of cases, served on loopback until it is closed.
 *
 * <pre>{@code
 * Casework casework = new Casework(Shop.BUILT_IN);
 * try (WebServer server = WebServer.start(new WebServer.Options(folder, 0, List.of(), casework, "ada"))) {
 *     System.out.println(server.address());
 * }
 * }</pre>
 */
public final class WebServer implements AutoCloseable {
    private static final int TOKEN_BYTES = 24;
    private static final String LOGGER = "org.jboss.logging.provider";
    private static final int REQUEST_MILLIS = 60_000;

    /**
     * What to serve.
     *
     * @param folder folder of cases
     * @param port port on loopback, 0 for any free one
     * @param circuits circuit files offered for new cases besides those in the folder
     * @param casework opens and answers cases, under the shop's rules and base rates
     * @param user name proposed for who records
     */
    public record Options(Path folder, int port, List<Path> circuits, Casework casework, String user) {
        public Options {
            circuits = List.copyOf(circuits);
            if (port < 0 || port > 65_535) throw new InputProblem("--port " + port + " is not within 0 to 65535");
        }
    }

    private final Undertow server;
    private final Answers answers;
    private final int port;

    private WebServer(Undertow server, Answers answers, int port) {
        this.server = server;
        this.answers = answers;
        this.port = port;
    }

    /**
     * Starts serving.
     *
     * @throws InputProblem when the folder or a circuit file cannot be used, or the port is taken
     */
    public static WebServer start(Options options) {
        // The library would log each start and stop to the error output; what a user needs to know is said by the
        // command.
        if (System.getProperty(LOGGER) == null) System.setProperty(LOGGER, "slf4j");
        Casework casework = options.casework();
        options.circuits().forEach(casework::circuit);
        CaseFolder folder = new CaseFolder(options.folder(), options.circuits(), casework);
        Answers answers = new Answers();
        String token = token();
        Reading reading = new Reading(folder, casework, answers, token, options.user());
        Api api = new Api(
                folder,
                reading,
                new Recording(folder),
                new Advising(folder, casework, answers),
                new Drills(folder, casework, answers));
        Undertow server = Undertow.builder()
                .addHttpListener(
                        options.port(), InetAddress.getLoopbackAddress().getHostAddress())
                .setServerOption(UndertowOptions.MAX_ENTITY_SIZE, Body.MOST_LOG_BYTES + 1L)
                .setServerOption(UndertowOptions.MAX_HEADER_SIZE, 16 << 10)
                .setServerOption(UndertowOptions.MAX_PARAMETERS, 20)
                .setServerOption(UndertowOptions.REQUEST_PARSE_TIMEOUT, REQUEST_MILLIS)
                .setServerOption(UndertowOptions.NO_REQUEST_TIMEOUT, REQUEST_MILLIS)
                .setServerOption(UndertowOptions.ENABLE_HTTP2, false)
                .setIoThreads(2)
                .setWorkerThreads(8)
                .setHandler(new Gate(token, new BlockingHandler(api)))
                .build();
        try {
            server.start();
        } catch (RuntimeException e) {
            answers.close();
            throw taken(options.port(), e);
        }
        InetSocketAddress bound =
                (InetSocketAddress) server.getListenerInfo().get(0).getAddress();
        return new WebServer(server, answers, bound.getPort());
    }

    private static RuntimeException taken(int port, RuntimeException e) {
        for (Throwable t = e; t != null; t = t.getCause())
            if (t instanceof BindException)
                return new InputProblem(
                        "port " + port
                                + " is taken, perhaps by a page that is served already; give another with --port",
                        e);
        return e;
    }

    private static String token() {
        byte[] bytes = new byte[TOKEN_BYTES];
        new SecureRandom().nextBytes(bytes);
        return HexFormat.of().formatHex(bytes);
    }

    /** Where the page is. */
    public URI address() {
        return URI.create("http://127.0.0.1:" + port + "/");
    }

    @Override
    public void close() {
        server.stop();
        answers.close();
    }
}
