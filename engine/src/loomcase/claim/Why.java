package loomcase.claim;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import loomcase.casework.Advice;
import loomcase.casework.OpenCase;
import loomcase.journal.ClaimFact;
import loomcase.model.PlaceId;
import loomcase.policy.RemedyRuling;
import loomcase.print.Wording;
import loomcase.translate.Translator;
import loomcase.verdict.BreakEven;
import loomcase.verdict.Remedy;
import loomcase.verdict.Verdict;

/**
 * Why this option and not a cheaper or dearer one: the verdict on the case as it stood before the repair that was chosen.
 */
final class Why {
    private final Verdict verdict;
    private final Optional<ClaimFact.Chose> chose;
    private final Wording words;
    private final Figures figures;
    private final Translator translator;

    private Why(
            Verdict verdict, Optional<ClaimFact.Chose> chose, Wording words, Figures figures, Translator translator) {
        this.verdict = verdict;
        this.chose = chose;
        this.words = words;
        this.figures = figures;
        this.translator = translator;
    }

    /** The reasoning; empty when the case had no codes by then. */
    static Optional<Packet.Reasoning> of(
            OpenCase then, Optional<ClaimFact.Chose> chose, Wording words, Figures figures, Translator translator) {
        if (!then.hasCodes()) return Optional.empty();
        Verdict verdict = then.answer().verdict(Advice.USUAL);
        return Optional.of(new Why(verdict, chose, words, figures, translator).reasoning());
    }

    private Packet.Reasoning reasoning() {
        List<String> said = new ArrayList<>();
        said.add(words.say("why.option", option(verdict.option())));
        verdict.reasons().forEach(s -> said.add(translator.verdict(s)));
        verdict.conflicts().forEach(s -> said.add(translator.verdict(s)));
        said.add(translator.verdict(verdict.replacement().words()));
        return new Packet.Reasoning(
                verdict.option(),
                said.stream()
                        .filter(s -> !s.isBlank())
                        .map(Story::sentence)
                        .distinct()
                        .toList(),
                costs(),
                verdict.breakEvens().stream().map(this::sentence).toList(),
                rule(RemedyRuling.Effect.REQUIRE),
                rule(RemedyRuling.Effect.FORBID),
                texts(RemedyRuling.Effect.APPROVAL));
    }

    private String option(String word) {
        return word.equals(Verdict.NOT_ENOUGH) || word.equals(Verdict.ASK)
                ? words.say("why." + word)
                : words.say("option." + word);
    }

    /**
     * The weighed remedy that was chosen: same option, at the same place or with the place in what it replaces; where a
     * repair was weighed at another end of the same wire, the cheapest of that option. A section elsewhere is none.
     */
    private Optional<Verdict.Weighed> chosen() {
        if (chose.isEmpty()) return Optional.empty();
        if (chose.get().also().isPresent()) return both(chose.get().also().get());
        PlaceId place = chose.get().spot().place();
        List<Verdict.Weighed> same = verdict.options().stream()
                .filter(w -> w.remedy().option().equals(chose.get().option().word()))
                .toList();
        return same.stream()
                .filter(w -> w.remedy().place().equals(place)
                        || w.remedy().replaced().contains(place.id()))
                .findFirst()
                .or(() -> same.stream()
                        .filter(w -> chose.get().option() != ClaimFact.Option.BRANCH_SECTION)
                        .findFirst());
    }

    /** Two repairs are the weighed ones only when options and places are the same, in whatever order. */
    private Optional<Verdict.Weighed> both(ClaimFact.Also also) {
        ClaimFact.Also first =
                new ClaimFact.Also(chose.orElseThrow().option(), chose.get().spot());
        return verdict.options().stream()
                .filter(w -> {
                    List<Remedy> halves = w.remedy().halves();
                    return !halves.isEmpty()
                            && (is(halves.get(0), first) && is(halves.get(1), also)
                                    || is(halves.get(0), also) && is(halves.get(1), first));
                })
                .findFirst();
    }

    /** Of a section any of its branches may be named. */
    private static boolean is(Remedy half, ClaimFact.Also chosen) {
        PlaceId place = chosen.spot().place();
        return half.option().equals(chosen.option().word())
                && (half.place().equals(place)
                        || place.kind() == PlaceId.Kind.BRANCH
                                && half.replaced().contains(place.id()));
    }

    private String rule(RemedyRuling.Effect effect) {
        return chosen().stream()
                .flatMap(w -> w.rulings().stream())
                .filter(r -> r.effect() == effect)
                .map(RemedyRuling::rule)
                .findFirst()
                .orElse("");
    }

    private List<String> texts(RemedyRuling.Effect effect) {
        return chosen().stream()
                .flatMap(w -> w.rulings().stream())
                .filter(r -> r.effect() == effect)
                .map(this::text)
                .toList();
    }

    private String text(RemedyRuling ruling) {
        return translator.rule(ruling.rule(), ruling.text());
    }

    /** The cheapest remedy of each option, and the chosen one. */
    private List<Packet.OptionCost> costs() {
        Set<Verdict.Weighed> shown = new LinkedHashSet<>();
        Set<String> options = new LinkedHashSet<>();
        for (Verdict.Weighed w : verdict.options())
            if (chosen().filter(w::equals).isPresent()
                    || options.add(w.remedy().option())
                            && chosen().filter(c -> c.remedy()
                                            .option()
                                            .equals(w.remedy().option()))
                                    .isEmpty()) shown.add(w);
        return shown.stream().map(this::cost).toList();
    }

    private Packet.OptionCost cost(Verdict.Weighed w) {
        return new Packet.OptionCost(
                w.remedy().option(),
                w.remedy().singles().stream()
                        .map(r -> translator.remedy(r.words()))
                        .reduce((a, b) -> words.say("remedy.both", a, b))
                        .orElseThrow(),
                Figures.money(BigDecimal.valueOf(w.cost().now())),
                Figures.money(BigDecimal.valueOf(w.cost().total())),
                w.forbidden(),
                w.rulings().stream()
                        .filter(r -> r.effect() != RemedyRuling.Effect.CAUTION)
                        .map(r -> text(r) + " (" + r.rule() + ")")
                        .toList());
    }

    private String sentence(BreakEven b) {
        String what = words.say("quantity." + b.quantity().word());
        if (b.at().isEmpty())
            return words.say("break.none", what, value(b, b.now()), value(b, b.low()), value(b, b.high()));
        return words.say("break.flip", what, value(b, b.now()), option(b.becomes()), value(b, b.at().getAsDouble()));
    }

    private String value(BreakEven b, double x) {
        return switch (b.quantity()) {
            case HIDDEN_DAMAGE -> words.say("value.percent", figures.rounded1(100 * x));
            case CIRCUITS -> figures.rounded1(x);
            case LABOUR_RATE -> words.say("value.rate", figures.rounded1(x), verdict.currency());
        };
    }
}
