package loomcase.cli;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.Optional;

/** The standard output, remembering a failed write: a full disk must not look like an answer. */
final class Output extends FilterOutputStream {
    private IOException failed;

    Output(OutputStream to) {
        super(to);
    }

    @Override
    public void write(byte[] bytes, int from, int count) throws IOException {
        try {
            out.write(bytes, from, count);
        } catch (IOException e) {
            throw remember(e);
        }
    }

    @Override
    public void flush() throws IOException {
        try {
            out.flush();
        } catch (IOException e) {
            throw remember(e);
        }
    }

    private IOException remember(IOException e) {
        if (failed == null) failed = e;
        return e;
    }

    /** Why the output is not complete; empty when it is, or when its reader left, as {@code head} does. */
    Optional<String> problem() {
        if (failed == null || String.valueOf(failed.getMessage()).contains("Broken pipe")) return Optional.empty();
        return Optional.of(String.valueOf(failed.getMessage()));
    }
}
