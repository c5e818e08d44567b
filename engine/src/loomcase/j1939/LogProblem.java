package loomcase.j1939;

/** A log that cannot be used at all; the message names the file, the line if there is one, and what is allowed. */
public class LogProblem extends RuntimeException {
    private static final long serialVersionUID = 1L;

    public LogProblem(String message) {
        super(message);
    }

    public LogProblem(String message, Throwable cause) {
        super(message, cause);
    }
}
