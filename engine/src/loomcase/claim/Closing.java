package loomcase.claim;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Predicate;
import loomcase.casework.OpenCase;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import loomcase.model.Device;
import loomcase.policy.ClaimGap;

/**
 * What to record so that the gaps of a claim close: for each gap the kind of line, and what is known of it already.
 *
 * <p>The field of a gap decides the kind; the line that it is about is the one whose own words stand in the gap's text. A rule
 * of a shop gets what its field gets.
 */
public final class Closing {
    private static final String SECOND_PHOTO = "A photo of the second damage";

    /** Nothing that is recorded makes one claim of two. */
    private static final String TWO_CLAIMS = "Two places that failed are two claims";

    /** A reading lacks these, and its line is corrected; other gaps of readings ask for another reading. */
    private static final Set<String> OF_THE_LINE =
            Set.of("Leads are zeroed", "Ohms have a temperature", "The meter is named");

    /**
     * A line to be recorded.
     *
     * @param kind of the fact, as in a case file
     * @param corrects line that it takes the place of, empty for a new line
     * @param like line that says the same at another time, such as the same reading before the repair; empty for none
     * @param place where, empty when not known
     * @param known other fields of the fact that are known, by their names in a case file
     */
    public record Line(
            String kind, OptionalInt corrects, OptionalInt like, Optional<Spot> place, Map<String, String> known) {
        public Line {
            known = Map.copyOf(known);
        }
    }

    private final OpenCase open;
    private final Packet p;
    private final Timeline time;
    private final Optional<Spot> place;

    private Closing(OpenCase open, Packet packet) {
        this.open = open;
        this.p = packet;
        this.time = new Timeline(open.journal());
        this.place = packet.choice().map(Packet.Choice::spot).or(() -> last(time.repairs())
                .flatMap(w -> w.fact().spot()));
    }

    /** For each gap of a claim, in order, what to record; empty where no line would close it. */
    public static List<Optional<Line>> of(OpenCase open, Packet packet) {
        Closing c = new Closing(open, packet);
        return packet.outcome().gaps().stream().map(c::line).toList();
    }

    /** What to record for one gap, whatever the rules in force make of the claim. */
    static Optional<Line> line(OpenCase open, Packet packet, ClaimGap gap) {
        return new Closing(open, packet).line(gap);
    }

    private Optional<Line> line(ClaimGap gap) {
        return switch (gap.field()) {
            case "machine", "complaint" -> Optional.of(corrected("opened", 1));
            case "cause" -> cause(gap);
            case "damage-cause", "option" -> Optional.of(choice());
            case "correction", "technician" -> Optional.of(work(w -> w.spot().isEmpty()));
            case "codes-before" -> codesBefore();
            case "codes-after" -> Optional.of(fresh("codes", Map.of()));
            case "readings-before", "readings-after" -> Optional.of(reading(gap));
            case "photos" -> Optional.of(photo(gap));
            case "causal-part" -> gap.rule().equals(TWO_CLAIMS) ? Optional.empty() : Optional.of(part(gap));
            case "parts-kept" -> kept(gap);
            case "labour" -> labour(gap);
            case "access" -> access(gap);
            case "approval" -> Optional.of(approval(gap));
            default -> Optional.empty();
        };
    }

    private Line fresh(String kind, Map<String, String> known) {
        return new Line(kind, OptionalInt.empty(), OptionalInt.empty(), place, known);
    }

    private Line corrected(String kind, int line) {
        return new Line(kind, OptionalInt.of(line), OptionalInt.empty(), Optional.empty(), Map.of());
    }

    private static <T> Optional<T> last(List<T> all) {
        return all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1));
    }

    private Optional<Line> cause(ClaimGap gap) {
        if (p.choice().isEmpty()) return Optional.of(choice());
        return Optional.of(gap.text().contains("reading") ? fresh("reading", Map.of()) : fresh("seen", Map.of()));
    }

    private Line choice() {
        return p.choice().map(c -> corrected("chose", c.line())).orElseGet(() -> fresh("chose", Map.of()));
    }

    /** The first piece of work that lacks something, or a new one. */
    private Line work(Predicate<Fact.Work> lacks) {
        return time.repairs().stream()
                .filter(w -> lacks.test(w.fact()))
                .findFirst()
                .map(w -> corrected("work", w.line()))
                .orElseGet(() -> fresh("work", Map.of()));
    }

    /** Codes read too late cannot be read before any more; counts that were not written down can be added. */
    private Optional<Line> codesBefore() {
        if (time.firstRepair().isPresent()
                && time.all(Fact.Codes.class, Packet.Stage.BEFORE).isEmpty()) return Optional.empty();
        return Optional.of(time.all(Fact.Codes.class, Packet.Stage.BEFORE).stream()
                .filter(c -> c.fact().codes().stream().anyMatch(x -> x.count().isEmpty()))
                .findFirst()
                .map(c -> corrected("codes", c.line()))
                .orElseGet(() -> fresh("codes", Map.of())));
    }

    private Line reading(ClaimGap gap) {
        List<Packet.ReadingLine> named = p.readings().stream()
                .filter(r -> gap.text().contains("\"" + r.id() + "\""))
                .filter(r -> !OF_THE_LINE.contains(gap.rule())
                        || gap.field().endsWith(r.stage().word()) && lacks(gap.rule(), r.reading()))
                .toList();
        if (OF_THE_LINE.contains(gap.rule()) && !named.isEmpty())
            return corrected("reading", named.get(0).line());
        // What a reading after the repair is best compared with is one from before it.
        Optional<Packet.ReadingLine> like = last(named)
                .or(() -> gap.field().equals("readings-after")
                        ? p.readings().stream()
                                .filter(Packet.ReadingLine::out)
                                .findFirst()
                                .or(() -> last(p.readings()))
                        : Optional.empty());
        OptionalInt line = like.isPresent() ? OptionalInt.of(like.get().line()) : OptionalInt.empty();
        return new Line("reading", OptionalInt.empty(), line, Optional.empty(), Map.of());
    }

    private static boolean lacks(String rule, Fact.Reading r) {
        return switch (rule) {
            case "Leads are zeroed" -> r.meter().leadZeroOhms().isEmpty();
            case "Ohms have a temperature" -> r.setup().wireCelsius().isEmpty();
            default -> r.meter().name().isEmpty();
        };
    }

    private Line photo(ClaimGap gap) {
        Optional<Packet.PhotoLine> named = p.photos().stream()
                .filter(l -> gap.text().contains(l.photo().file()))
                .findFirst();
        if (named.isPresent()) return corrected("photo", named.get().line());
        if (gap.rule().equals(SECOND_PHOTO))
            return new Line(
                    "photo",
                    OptionalInt.empty(),
                    OptionalInt.empty(),
                    p.choice().flatMap(c -> c.chose().also()).map(ClaimFact.Also::spot),
                    Map.of("view", "close-up"));
        String said = gap.text().toLowerCase(java.util.Locale.ROOT);
        String view = said.contains("overview") ? "overview" : said.contains("of the repair") ? "repair" : "close-up";
        return fresh("photo", Map.of("view", view));
    }

    private Line part(ClaimGap gap) {
        Optional<Packet.PartLine> named = p.bill().parts().stream()
                .filter(l -> l.part().role() == ClaimFact.Role.CAUSAL)
                .filter(l -> gap.text().contains(l.part().name()))
                .findFirst();
        if (named.isPresent()) return corrected("part", named.get().line());
        Map<String, String> known = new LinkedHashMap<>(Map.of("role", "causal"));
        p.choice().map(c -> sort(c.chose().option())).ifPresent(s -> known.put("sort", s));
        place.map(s -> open.circuit().devices().get(s.place().id()))
                .map(Device::label)
                .ifPresent(name -> known.put("name", name));
        return fresh("part", known);
    }

    /** What fails when a thing of this kind is put right. */
    private static String sort(ClaimFact.Option option) {
        return switch (option) {
            case SPLICE_REPAIR, OVERLAY_WIRE -> "wire";
            case TERMINAL, RESEAT -> "terminal";
            case BRANCH_SECTION -> "section";
            case FULL_HARNESS -> "harness";
            case DEVICE, CONTROL_UNIT, FUSE -> option.word();
            default -> "other";
        };
    }

    private Optional<Line> kept(ClaimGap gap) {
        return p.bill().parts().stream()
                .filter(l -> gap.text().contains(l.part().name()))
                .findFirst()
                .map(l -> fresh("kept", Map.of("part", l.part().name())));
    }

    private Optional<Line> labour(ClaimGap gap) {
        if (gap.text().contains("diagnosis")) return Optional.of(fresh("reading", Map.of()));
        if (gap.severity() == ClaimGap.Severity.BLOCKS)
            return Optional.of(work(w -> w.minutes().isEmpty()));
        return time.repairs().stream()
                .filter(w -> w.fact().minutes().isPresent() && w.fact().note().isBlank())
                .findFirst()
                .map(w -> corrected("work", w.line()));
    }

    private Optional<Line> access(ClaimGap gap) {
        List<Line> out = new ArrayList<>();
        time.access((step, opened, closed) -> {
            if (closed == 0
                    && gap.text()
                            .contains("\"" + open.circuit().access().get(step).label() + "\""))
                out.add(fresh("closed-access", Map.of("step", step)));
        });
        return out.stream().findFirst();
    }

    private Line approval(ClaimGap gap) {
        Optional<Packet.ApprovalLine> named = p.approvals().stream()
                .filter(a -> gap.text().contains(a.approved().what()))
                .findFirst();
        if (named.isPresent()) return corrected("approved", named.get().line());
        return p.reasoning().stream()
                .flatMap(r -> r.needsApproval().stream())
                .filter(gap.text()::contains)
                .findFirst()
                .map(what -> fresh("approved", Map.of("what", what)))
                .orElseGet(() -> fresh("approved", Map.of()));
    }
}
