package loomcase.j1939;

/** Codes typed by the user that cannot be read; the message quotes the part at fault and says what is allowed. */
public class CodeProblem extends RuntimeException {
    private static final long serialVersionUID = 1L;

    public CodeProblem(String message) {
        super(message);
    }
}
