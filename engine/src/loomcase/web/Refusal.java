package loomcase.web;

/** A request that is not answered as it wished; the message is shown to the user. */
final class Refusal extends RuntimeException {
    private static final long serialVersionUID = 1L;

    static final int BAD_REQUEST = 400;
    static final int FORBIDDEN = 403;
    static final int NOT_FOUND = 404;
    static final int METHOD_NOT_ALLOWED = 405;
    static final int CONFLICT = 409;
    static final int TOO_LARGE = 413;
    static final int WRONG_TYPE = 415;

    private final int status;

    Refusal(int status, String message) {
        super(message, null, false, false);
        this.status = status;
    }

    /** HTTP status code (RFC 9110). */
    int status() {
        return status;
    }

    static Refusal notFound(String what) {
        return new Refusal(NOT_FOUND, what + " is not here");
    }
}
