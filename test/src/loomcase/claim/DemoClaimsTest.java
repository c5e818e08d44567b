package loomcase.claim;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo cases are those that {@link DemoClaims} writes; run with {@code -Dloomcase.regenerate=true} to write them. */
class DemoClaimsTest {
    @TempDir
    private Path folder;

    @Test
    void theCasesAreAsTheStoriesSay() throws IOException {
        DemoClaims.write(folder);
        for (String name : DemoClaims.NAMES) {
            String file = name + ".jsonl";
            if (Boolean.getBoolean("loomcase.regenerate"))
                Files.write(DemoClaims.FOLDER.resolve(file), Files.readAllBytes(folder.resolve(file)));
            assertEquals(
                    Files.readString(folder.resolve(file)), Files.readString(DemoClaims.FOLDER.resolve(file)), file);
        }
    }
}
