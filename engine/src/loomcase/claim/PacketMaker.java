package loomcase.claim;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import loomcase.casework.OpenCase;
import loomcase.journal.ClaimFact;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.Standing;
import loomcase.policy.ClaimGap;
import loomcase.policy.ClaimOutcome;
import loomcase.print.Wording;
import loomcase.proof.Proof;
import loomcase.proof.ProofMaker;
import loomcase.translate.Translator;

/** Entry of this stage: makes a claim of a case. */
public final class PacketMaker {
    private final OpenCase open;
    private final Timeline time;
    private final Wording words;
    private final Figures figures;
    private final FactWords facts;
    private final Translator translator;
    private final Optional<Packet.Choice> choice;

    private PacketMaker(OpenCase open, Locale language) {
        this.open = open;
        this.time = new Timeline(open.journal());
        this.words = Wording.of(PacketMaker.class, language);
        this.figures = new Figures(words.language());
        this.facts = new FactWords(words, figures, open.circuit());
        this.translator = new Translator(words.language(), facts::argument);
        List<Timeline.At<ClaimFact.Chose>> chosen = time.all(ClaimFact.Chose.class);
        this.choice = chosen.isEmpty()
                ? Optional.empty()
                : Optional.of(chosen.get(chosen.size() - 1)).map(c -> new Packet.Choice(c.line(), c.fact()));
    }

    /**
     * The claim as the case stands, with the verdict on the case as it stood before the repair that was chosen:
     * the first, or the one chosen after codes showed that the first did not do.
     *
     * @param language of all its words but those that people, the circuit file and a shop's own rules wrote; English where a
     *     language has no words
     */
    public static Packet of(OpenCase open, Locale language) {
        return new PacketMaker(open, language).make(true);
    }

    /** The same without the verdict, which takes by far the most time; the packet says that it was not computed. */
    public static Packet withoutVerdict(OpenCase open, Locale language) {
        return new PacketMaker(open, language).make(false);
    }

    private Packet make(boolean weigh) {
        List<Packet.ReadingLine> readings = readings();
        List<Packet.PhotoLine> photos = photos();
        Story story = new Story(time, words, facts, readings);
        OptionalInt repair = choice.isEmpty()
                ? time.firstRepair()
                : time.repairOf(choice.get().line());
        Optional<Proof> proof = ProofMaker.find(open.circuit(), open.bench().layout(), open.journal());
        OpenCase then = repair.isEmpty() ? open : open.before(repair.getAsInt());
        Packet bare = new Packet(
                about(),
                story.complaint(),
                story.cause(choice),
                story.correction(),
                time.all(Fact.Codes.class).stream()
                        .map(c -> new Packet.CodesLine(
                                time.stage(c.line()), c.line(), c.stamp().at(), c.fact()))
                        .toList(),
                readings,
                photos,
                choice,
                weigh ? Why.of(then, choice.map(Packet.Choice::chose), words, figures, translator) : Optional.empty(),
                new BillMaker(open, time, words, facts, choice.map(Packet.Choice::chose)).bill(),
                time.all(ClaimFact.Kept.class).stream()
                        .map(k -> new Packet.KeptLine(k.line(), k.fact()))
                        .toList(),
                time.all(ClaimFact.Approved.class).stream()
                        .map(a -> new Packet.ApprovalLine(a.line(), a.fact()))
                        .toList(),
                proof.map(x -> new Packet.Proven(
                        x.in(Proof.State.PASSED).size(), x.checks().size())),
                Contradictions.in(open.circuit(), time, photos, readings, proof, words, facts),
                new ClaimOutcome(List.of(), false, List.of(), List.of()),
                evidence());
        return ruled(bare, translated(open.claim(new RuleFacts(bare, time, facts).all())));
    }

    private ClaimOutcome translated(ClaimOutcome outcome) {
        return new ClaimOutcome(
                outcome.gaps().stream()
                        .map(g -> new ClaimGap(
                                g.severity(), g.field(), translator.rule(g.rule(), g.text()), g.rule(), g.source()))
                        .toList(),
                outcome.shopPolicyDiffers(),
                outcome.rulesDisplaced(),
                outcome.rulesAdded());
    }

    private static Packet ruled(Packet p, ClaimOutcome outcome) {
        return new Packet(
                p.about(),
                p.complaint(),
                p.cause(),
                p.correction(),
                p.codes(),
                p.readings(),
                p.photos(),
                p.choice(),
                p.reasoning(),
                p.bill(),
                p.kept(),
                p.approvals(),
                p.proven(),
                p.contradictions(),
                outcome,
                p.evidence());
    }

    private Packet.About about() {
        List<Entry> entries = open.journal().entries();
        List<OffsetDateTime> clock =
                time.atTheEngine().map(s -> s.stamp().at()).sorted().toList();
        double minutes = clock.isEmpty()
                ? 0
                : Duration.between(clock.get(0), clock.get(clock.size() - 1)).toSeconds() / 60.0;
        List<Timeline.At<Fact.Work>> repairs = time.repairs();
        return new Packet.About(
                open.file().getFileName().toString(),
                open.journal().opened(),
                open.circuit().title(),
                open.circuit().origin(),
                entries.stream().map(e -> e.stamp().by()).distinct().toList(),
                repairs.isEmpty()
                        ? Optional.empty()
                        : Optional.of(repairs.get(repairs.size() - 1).stamp().by()),
                entries.get(0).stamp().at(),
                entries.get(entries.size() - 1).stamp().at(),
                minutes,
                entries.size(),
                open.journal().last());
    }

    private List<Packet.ReadingLine> readings() {
        Limits limits = new Limits(open, words, figures);
        return time.all(Fact.Reading.class).stream()
                .map(r -> new Packet.ReadingLine(
                        time.stage(r.line()),
                        r.line(),
                        r.stamp().at(),
                        facts.id(r.fact()),
                        r.fact(),
                        limits.of(r.fact())))
                .toList();
    }

    private List<Packet.PhotoLine> photos() {
        List<Packet.PhotoLine> out = new ArrayList<>();
        for (Timeline.At<ClaimFact.Photo> p : time.all(ClaimFact.Photo.class)) {
            Path file = photoFile(open.file(), p.fact());
            Packet.PhotoState state = !Files.isRegularFile(file)
                    ? Packet.PhotoState.MISSING
                    : Digest.ofFile(file).equals(p.fact().digest())
                            ? Packet.PhotoState.SAME
                            : Packet.PhotoState.CHANGED;
            out.add(new Packet.PhotoLine(p.line(), p.fact(), state));
        }
        return out;
    }

    /** Where the file of a photo is; the case names it from its own folder. */
    static Path photoFile(Path caseFile, ClaimFact.Photo photo) {
        return caseFile.toAbsolutePath().resolveSibling(photo.file());
    }

    private List<Packet.EvidenceLine> evidence() {
        List<Integer> withdrawn = time.lines().stream()
                .filter(s -> s.correctedBy().isPresent())
                .map(Standing::n)
                .toList();
        return open.journal().entries().stream()
                .map(e -> new Packet.EvidenceLine(
                        e.n(), e.stamp().at(), e.stamp().by(), facts.say(e.fact()), withdrawn.contains(e.n())))
                .toList();
    }
}
