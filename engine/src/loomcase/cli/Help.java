package loomcase.cli;

import picocli.CommandLine;

/** The option that every command has. */
final class Help {
    @CommandLine.Option(
            names = {"-h", "--help"},
            usageHelp = true,
            description = "show this help and stop")
    private boolean wanted;
}
