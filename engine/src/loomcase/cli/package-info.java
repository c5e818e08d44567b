/**
 * The command line: arguments in, text or JSON out, no reasoning of its own.
 *
 * <p>Start reading at {@code Main}; one class is one command. A user's mistake is one line on the error output and exit code
 * 2; exit code 1 says that the evidence does not settle the matter.
 */
package loomcase.cli;
