package loomcase.claim;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import loomcase.journal.Standing;
import loomcase.model.Access;
import loomcase.model.Circuit;
import loomcase.print.Phrase;
import loomcase.print.Wording;
import loomcase.proof.Proof;

/** Where a case says two things that cannot both be. What the claim rules find is not said twice. */
final class Contradictions {
    private final Circuit circuit;
    private final Timeline time;
    private final Wording words;
    private final FactWords facts;
    private final List<Phrase> found = new ArrayList<>();

    private Contradictions(Circuit circuit, Timeline time, Wording words, FactWords facts) {
        this.circuit = circuit;
        this.time = time;
        this.words = words;
        this.facts = facts;
    }

    static List<Phrase> in(
            Circuit circuit,
            Timeline time,
            List<Packet.PhotoLine> photos,
            List<Packet.ReadingLine> readings,
            Optional<Proof> proof,
            Wording words,
            FactWords facts) {
        Contradictions c = new Contradictions(circuit, time, words, facts);
        c.proofBeforeWork();
        c.clockBackwards();
        c.dates();
        c.access();
        for (Packet.PhotoLine p : photos)
            if (p.state() == Packet.PhotoState.CHANGED)
                c.say("against.photo", List.of(p.line()), p.photo().file());
        proof.ifPresent(x -> c.proof(x, readings));
        return c.found;
    }

    /** What was seen after the work and speaks against it, where no rule says so of the same lines. */
    private void proof(Proof proof, List<Packet.ReadingLine> readings) {
        Set<Integer> ruled = new HashSet<>();
        readings.stream()
                .filter(r -> r.stage() == Packet.Stage.AFTER && r.out())
                .forEach(r -> ruled.add(r.line()));
        time.all(Fact.Codes.class, Packet.Stage.AFTER).stream()
                .filter(c -> c.fact().codes().stream().anyMatch(x -> x.state() == Fact.State.ACTIVE))
                .forEach(c -> ruled.add(c.line()));
        for (Proof.Check c : proof.in(Proof.State.CONTRADICTED))
            if (!ruled.containsAll(c.lines())) say("against.check", c.lines(), facts.word("check.", c.kind()));
    }

    private void say(String key, List<Integer> lines, Object... arguments) {
        found.add(Phrase.of(words.say(key, arguments)).from(lines));
    }

    /** A line of proof that bears an earlier time than the work it proves. */
    private void proofBeforeWork() {
        for (Timeline.At<Fact.Work> w : time.repairs())
            for (Standing s : time.lines()) {
                boolean proof = s.fact() instanceof Fact.Reading || s.fact() instanceof Fact.Codes;
                if (proof
                        && s.n() > w.line()
                        && s.stamp().at().isBefore(w.stamp().at()))
                    say(
                            "against.proof",
                            List.of(s.n(), w.line()),
                            Figures.when(s.stamp().at()),
                            Figures.when(w.stamp().at()));
            }
    }

    /** Other lines that bear an earlier time than the line before. */
    private void clockBackwards() {
        List<Standing> lines = time.lines();
        for (int i = 1; i < lines.size(); i++) {
            Standing before = lines.get(i - 1);
            Standing s = lines.get(i);
            int n = s.n();
            boolean said = found.stream().anyMatch(p -> p.lines().contains(n));
            if (!said && s.stamp().at().isBefore(before.stamp().at()))
                say(
                        "against.clock",
                        List.of(n, before.n()),
                        Figures.when(s.stamp().at()),
                        Figures.when(before.stamp().at()));
        }
    }

    /** A day that had not come when it was written down as past. */
    private void dates() {
        for (Timeline.At<Fact.Opened> o : time.all(Fact.Opened.class))
            o.fact().machine().inService().ifPresent(day -> ahead("against.service", o, day));
        for (Timeline.At<ClaimFact.Approved> a : time.all(ClaimFact.Approved.class))
            a.fact().date().ifPresent(day -> ahead("against.approval", a, day));
    }

    private void ahead(String key, Timeline.At<?> at, LocalDate day) {
        if (day.isAfter(at.stamp().at().toLocalDate()))
            say(key, List.of(at.line()), day, Figures.when(at.stamp().at()));
    }

    /** Work where access was never opened, and closing what was not open. */
    private void access() {
        Set<String> open = new HashSet<>();
        for (Standing s : time.lines()) {
            if (s.fact() instanceof Fact.OpenedAccess o) open.add(o.step());
            if (s.fact() instanceof Fact.ClosedAccess c && !open.remove(c.step()))
                say("against.closed", List.of(s.n()), facts.step(c.step()));
            if (s.fact() instanceof Fact.Work w && w.spot().isPresent())
                for (String step : new Access(circuit).steps(w.spot().get().place()))
                    if (!open.contains(step))
                        say(
                                "against.access",
                                List.of(s.n()),
                                facts.place(w.spot().get()),
                                facts.step(step));
        }
    }
}
