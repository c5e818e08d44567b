package loomcase;

/**
 * Something the user gave cannot be used; the message names the file, the line or field, what is wrong and what is
 * allowed. Faces print the message and exit with 2; it never shows as a stack trace.
 */
public class InputProblem extends RuntimeException {
    private static final long serialVersionUID = 1L;

    public InputProblem(String message) {
        super(message);
    }

    public InputProblem(String message, Throwable cause) {
        super(message, cause);
    }
}
