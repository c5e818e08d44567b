package loomcase.cli;

import java.nio.file.Path;
import java.util.Optional;
import loomcase.casework.CaseFile;
import loomcase.casework.OpenCase;
import loomcase.journal.ClaimFact;
import loomcase.journal.Digest;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import picocli.CommandLine;

/** A photo taken; its digest shows later that it is the same photo. */
@CommandLine.Command(
        name = "photo",
        description = {
            "A photo that was taken; the digest of the file is written down with it.",
            "As in: photo close-up clip3.jpg \"wire rubbed through, scale beside it\" --place R1"
        })
final class RecordPhoto extends RecordKind {
    @CommandLine.Parameters(
            index = "0",
            paramLabel = "VIEW",
            description = "overview, close-up, cavities, repair or tag")
    private String view;

    @CommandLine.Parameters(index = "1", paramLabel = "FILE", description = "the photo")
    private Path file;

    @CommandLine.Parameters(index = "2", paramLabel = "SHOWS", description = "what is to be seen, in words")
    private String shows;

    @CommandLine.Option(names = "--place", paramLabel = "PLACE", description = "what is on it")
    private String place;

    @Override
    Fact fact(OpenCase input) {
        Optional<Spot> spot = Optional.ofNullable(place).map(input.check().names()::spot);
        return new ClaimFact.Photo(
                CaseFile.fromFolderOf(input.file(), file),
                Digest.ofFile(file),
                word("view", ClaimFact.View.class, view),
                spot,
                shows);
    }
}
