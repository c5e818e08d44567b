package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;

/** What one run of the program gave: exit code, output, error output. */
record Ran(int code, String out, String err) {
    static final String TEACHING = "circuits/teaching.json";
    static final String LARCH = "circuits/larch-13.json";

    /** Runs the program; no run may show a stack trace. */
    static Ran of(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int code = Main.run(new PrintWriter(out, true), new PrintWriter(err, true), arguments);
        Ran ran = new Ran(code, out.toString(), err.toString());
        assertFalse((ran.out + ran.err).contains("\tat "), ran.err);
        return ran;
    }

    static Ran of(List<String> arguments) {
        return of(arguments.toArray(String[]::new));
    }

    /** The run was refused with this sentence and nothing else. */
    void refusedWith(String sentence) {
        assertEquals(new Ran(2, "", "loomcase: " + sentence + "\n"), this);
    }
}
