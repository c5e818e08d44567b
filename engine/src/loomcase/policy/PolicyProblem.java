package loomcase.policy;

/** A shop's rule folder that cannot be used; the message names file, line, what is wrong and what to write instead. */
public final class PolicyProblem extends RuntimeException {
    private static final long serialVersionUID = 1L;

    PolicyProblem(String message) {
        super(message);
    }
}
