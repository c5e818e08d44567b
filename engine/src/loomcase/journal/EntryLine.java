package loomcase.journal;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.format.DateTimeFormatter;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The bytes of one line and what its digests cover.
 *
 * <p>A line is {@code CONTENT, "digest": "D"}} and a line feed, in UTF-8. CONTENT starts with <code>{"n": N, </code> and
 * ends with {@code "previous": "P"}. D is the SHA-256 of exactly the bytes of CONTENT, from the opening brace on and
 * without the comma after it. P is the SHA-256 of exactly the bytes of the whole line before, without its line feed, or 64
 * zeros in the first line. So anybody can recompute both with a text editor and a digest program.
 *
 * @param n number that the line gives itself
 * @param content bytes that its digest covers
 * @param previous digest of the line before, as it says
 * @param digest digest of its content, as it says
 */
record EntryLine(int n, byte[] content, Digest previous, Digest digest) {
    private static final Pattern FORM =
            Pattern.compile("(\\{\"n\": ([1-9][0-9]{0,8}), .*\"previous\": \"([0-9a-f]{64})\"),"
                    + " \"digest\": \"([0-9a-f]{64})\"\\}");

    /** Cuts a line, without its line feed, at its digest; nothing when it has not the form of a line. */
    static java.util.Optional<EntryLine> of(byte[] line) {
        // Latin-1 keeps every byte as one letter, so that lengths and bytes agree whatever the line holds.
        Matcher m = FORM.matcher(new String(line, StandardCharsets.ISO_8859_1));
        if (!m.matches()) return java.util.Optional.empty();
        return java.util.Optional.of(new EntryLine(
                Integer.parseInt(m.group(2)),
                m.group(1).getBytes(StandardCharsets.ISO_8859_1),
                new Digest(m.group(3)),
                new Digest(m.group(4))));
    }

    /** Whether the digest fits the content. */
    boolean whole() {
        return Digest.of(content).equals(digest);
    }

    /** The entry that follows a line, as bytes with the line feed. */
    static byte[] write(int n, Entry.Stamp stamp, Fact fact, Digest previous) {
        String content = content(n, stamp, fact, previous);
        return (content + ", \"digest\": \"" + Digest.of(content) + "\"}\n").getBytes(StandardCharsets.UTF_8);
    }

    private static String content(int n, Entry.Stamp stamp, Fact fact, Digest previous) {
        StringWriter text = new StringWriter();
        JsonFactory factory = JsonFactory.builder()
                .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
                .build();
        try (JsonGenerator g = factory.createGenerator(text)) {
            g.setPrettyPrinter(spaced());
            g.writeStartObject();
            g.writeNumberField("n", n);
            g.writeStringField("at", DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(stamp.at()));
            g.writeStringField("by", stamp.by());
            FactWriter.write(g, fact);
            if (stamp.confirmed().isPresent())
                g.writeStringField("confirmed", stamp.confirmed().get());
            g.writeStringField("previous", previous.hex());
            g.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException("a text in memory cannot fail to be written", e);
        }
        String whole = text.toString();
        return whole.substring(0, whole.length() - 1);
    }

    /** One line with a blank after each colon and comma. */
    private static DefaultPrettyPrinter spaced() {
        Separators separators = Separators.createDefaultInstance()
                .withObjectFieldValueSpacing(Separators.Spacing.AFTER)
                .withObjectEntrySpacing(Separators.Spacing.AFTER)
                .withArrayValueSpacing(Separators.Spacing.AFTER)
                .withObjectEmptySeparator("")
                .withArrayEmptySeparator("");
        DefaultPrettyPrinter printer = new DefaultPrettyPrinter(separators);
        printer.indentObjectsWith(DefaultPrettyPrinter.NopIndenter.instance);
        printer.indentArraysWith(DefaultPrettyPrinter.NopIndenter.instance);
        return printer;
    }
}
