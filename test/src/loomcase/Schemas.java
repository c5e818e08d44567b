package loomcase;

import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** The published schemas as an independent reader, networknt json-schema-validator 2.0.8, understands them. */
public final class Schemas {
    public static final Path FOLDER = Path.of("circuits");

    private static final SchemaRegistry REGISTRY =
            SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12, b -> b.schemas(Schemas::text));

    private Schemas() {}

    /** A schema of the circuits folder, such as {@code rank.schema.json}; what it refers to lies in the same folder. */
    public static Schema of(String name) {
        return REGISTRY.getSchema(
                SchemaLocation.of(FOLDER.resolve(name).toAbsolutePath().toUri().toString()));
    }

    /** The text at an address, or null where that is no file of the folder: such is the library's contract. */
    private static String text(String address) {
        if (!address.startsWith("file:")) return null;
        try {
            return Files.readString(Path.of(URI.create(address)));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The schema of schemas. */
    public static Schema draft() {
        return REGISTRY.getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    }

    /** What the schema has against a JSON text; empty when it fits. */
    public static List<Error> errors(Schema schema, String json) {
        return schema.validate(json, InputFormat.JSON);
    }
}
