package loomcase.cli;

import java.util.List;
import java.util.Optional;
import loomcase.draw.ReliabilitySvg;
import loomcase.draw.WaysSvg;
import loomcase.model.Circuit;
import loomcase.study.KindResult;
import loomcase.study.RepairResult;

/** The pictures of a study. */
record StudyPictures(Circuit circuit, List<KindResult> rows) {
    /** Stated probability against how often it was right. */
    String reliability() {
        return ReliabilitySvg.draw(
                "How sure the first suspect was, and how often it was right: " + circuit.id(),
                rows.stream()
                        .map(r -> new ReliabilitySvg.Panel(
                                r.words(),
                                r.reliability().stream()
                                        .map(b -> new ReliabilitySvg.Dot(b.stated(), b.right(), b.count()))
                                        .toList()))
                        .toList());
    }

    /** Minutes and money of each way of working; empty when no case was worked through. */
    Optional<String> ways() {
        List<WaysSvg.Group> groups = rows.stream()
                .filter(r -> r.repair().isPresent())
                .map(r -> new WaysSvg.Group(
                        r.words() + " (" + r.repair().get().cases() + ")",
                        r.repair().get().ways().stream()
                                .map(w -> new WaysSvg.Way(w.words(), List.of(span(w.minutes()), span(w.money()))))
                                .toList()))
                .toList();
        if (groups.isEmpty()) return Optional.empty();
        return Optional.of(WaysSvg.draw(
                "From the first codes to the right repair: " + circuit.id(),
                List.of("minutes", "money, " + circuit.costs().currency()),
                groups));
    }

    private static WaysSvg.Span span(RepairResult.Spread s) {
        return new WaysSvg.Span(s.mean(), s.low(), s.middle(), s.high());
    }
}
