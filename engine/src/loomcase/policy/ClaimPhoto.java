package loomcase.policy;

import java.util.List;
import java.util.Objects;

/**
 * One photo of the claim, as the claim rules see it.
 *
 * @param file its name
 * @param shows what is on it: one of {@link #VIEWS}
 * @param place id of the place on it; empty where not said
 * @param digest SHA-256 of its bytes as recorded; empty where not recorded
 */
public record ClaimPhoto(String file, String shows, String place, String digest) {
    /** What a photo can show. */
    public static final List<String> VIEWS = List.of("overview", "close-up", "cavities", "repair", "tag");

    public ClaimPhoto {
        Objects.requireNonNull(file, "file");
        Listed.require("shows", shows, VIEWS);
        Objects.requireNonNull(place, "place");
        Objects.requireNonNull(digest, "digest");
    }
}
