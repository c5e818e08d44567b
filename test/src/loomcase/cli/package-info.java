/** Tests of the command line: output, messages and exit codes as a user meets them. */
package loomcase.cli;
