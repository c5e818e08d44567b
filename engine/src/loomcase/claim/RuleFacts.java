package loomcase.claim;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import loomcase.journal.Fact;
import loomcase.policy.ClaimAccess;
import loomcase.policy.ClaimApproval;
import loomcase.policy.ClaimCase;
import loomcase.policy.ClaimCodes;
import loomcase.policy.ClaimFacts;
import loomcase.policy.ClaimLabour;
import loomcase.policy.ClaimPart;
import loomcase.policy.ClaimPhoto;
import loomcase.policy.ClaimReading;
import loomcase.policy.ClaimWork;
import loomcase.print.Phrase;

/** A packet as the claim rules see it. Codes and readings between two repairs prove nothing and are left out. */
final class RuleFacts {
    private final Packet p;
    private final Timeline time;
    private final FactWords facts;

    RuleFacts(Packet packet, Timeline time, FactWords facts) {
        this.p = packet;
        this.time = time;
        this.facts = facts;
    }

    ClaimFacts all() {
        List<ClaimAccess> access = new ArrayList<>();
        time.access((step, opened, closed) -> access.add(new ClaimAccess(step, facts.step(step), opened, closed)));
        return new ClaimFacts(
                claim(),
                p.codes().stream()
                        .filter(c -> c.stage() != Packet.Stage.BETWEEN)
                        .map(RuleFacts::codes)
                        .toList(),
                p.readings().stream()
                        .filter(r -> r.stage() != Packet.Stage.BETWEEN)
                        .map(this::reading)
                        .toList(),
                time.all(Fact.Work.class).stream().map(RuleFacts::work).toList(),
                p.photos().stream().map(RuleFacts::photo).toList(),
                p.bill().parts().stream().map(this::part).toList(),
                labour(),
                access,
                approvals());
    }

    /** Those on record; where a repair rule asks for one and none is on record, one that nobody gave. */
    private List<ClaimApproval> approvals() {
        if (p.approvals().isEmpty())
            return p.reasoning().stream()
                    .flatMap(r -> r.needsApproval().stream())
                    .map(text -> new ClaimApproval(text, "", "", ""))
                    .toList();
        return p.approvals().stream()
                .map(a -> new ClaimApproval(
                        a.approved().what(),
                        a.approved().number().orElse(""),
                        a.approved().date().map(Object::toString).orElse(""),
                        a.approved().approver().orElse("")))
                .toList();
    }

    private ClaimCase claim() {
        Fact.Opened o = p.about().opened();
        return new ClaimCase(
                o.unit().orElse(""),
                o.machine().serial().orElse(""),
                o.machine().inService().map(Object::toString).orElse(""),
                o.machine()
                        .distance()
                        .orElse(
                                o.hours().isPresent()
                                        ? Double.toString(o.hours().getAsDouble())
                                        : ""),
                o.complaint(),
                time.complaintLine(),
                text(p.cause()),
                p.choice().map(c -> c.spot().place().id()).orElse(""),
                text(p.correction()),
                p.choice().flatMap(c -> c.chose().damage()).map(d -> d.word()).orElse(""),
                p.choice().map(c -> c.chose().option().word()).orElse(""),
                p.choice()
                        .flatMap(c -> c.chose().also())
                        .map(a -> a.option().word())
                        .orElse(""),
                p.choice()
                        .flatMap(c -> c.chose().also())
                        .map(a -> a.spot().place().id())
                        .orElse(""),
                p.choice().map(c -> c.chose().reason()).orElse(""),
                p.reasoning().map(Packet.Reasoning::verdict).orElse(""),
                p.reasoning().map(Packet.Reasoning::requiringRule).orElse(""),
                p.reasoning().map(Packet.Reasoning::forbiddingRule).orElse(""),
                p.reasoning().map(r -> r.costs().size() > 1).orElse(false),
                p.about().technician().orElse(""),
                p.about().clockedMinutes(),
                true); // a journal is only read when its chain holds
    }

    private static String text(List<Phrase> phrases) {
        return phrases.stream().map(Phrase::text).collect(Collectors.joining(" "));
    }

    private static ClaimCodes codes(Packet.CodesLine c) {
        long active = c.codes().codes().stream()
                .filter(x -> x.state() == Fact.State.ACTIVE)
                .count();
        return new ClaimCodes(
                c.stage().word(),
                c.line(),
                (int) active,
                c.codes().codes().size() - (int) active,
                c.codes().codes().stream().allMatch(x -> x.count().isPresent()),
                true);
    }

    private ClaimReading reading(Packet.ReadingLine r) {
        return new ClaimReading(
                r.id(),
                r.stage().word(),
                r.line(),
                r.reading().test().word(),
                facts.shown(r.reading()),
                r.limit().map(Packet.Limit::words).orElse(""),
                r.limit().isEmpty() ? "" : r.out() ? "out" : "in",
                r.reading().meter().name(),
                r.reading().meter().leadZeroOhms().isPresent(),
                r.reading().setup().wireCelsius().isPresent());
    }

    private static ClaimWork work(Timeline.At<Fact.Work> w) {
        return new ClaimWork(
                w.fact().deed().name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'),
                w.line(),
                w.fact().spot().map(s -> s.place().id()).orElse(""));
    }

    private static ClaimPhoto photo(Packet.PhotoLine l) {
        return new ClaimPhoto(
                l.photo().file(),
                l.photo().view().name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'),
                l.photo().spot().map(s -> s.place().id()).orElse(""),
                l.photo().digest().hex());
    }

    private ClaimPart part(Packet.PartLine l) {
        return new ClaimPart(
                l.part().name(),
                l.part().number().orElse(""),
                l.part().quantity().doubleValue(),
                l.part().role().name().toLowerCase(java.util.Locale.ROOT),
                l.part().sort().name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'),
                l.part().spot().map(facts::place).orElse(""),
                l.tag().isPresent());
    }

    private List<ClaimLabour> labour() {
        return p.bill().labour().stream()
                .map(l -> new ClaimLabour(
                        l.words().text(),
                        l.kind(),
                        l.step(),
                        l.minutes().doubleValue(),
                        l.straightTime(),
                        l.explained()))
                .toList();
    }
}
