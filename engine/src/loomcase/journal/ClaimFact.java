package loomcase.journal;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/** What a clerk needs on record beside the evidence: photos, parts, what is kept, what was chosen and agreed. */
public final class ClaimFact {
    static final BigDecimal MOST = new BigDecimal("10000000");

    private ClaimFact() {}

    /** What a photo shows. */
    public enum View {
        /** Where on the machine. */
        OVERVIEW,
        /** The damage, with a scale beside it. */
        CLOSE_UP,
        /** A plug from its mating face, cavities named. */
        CAVITIES,
        /** The finished repair. */
        REPAIR,
        /** A kept part with its tag. */
        TAG
    }

    /**
     * A photo was taken.
     *
     * @param file path from the folder of the case file, or from the root; divided by {@code /}
     * @param digest SHA-256 of its bytes when it was recorded
     * @param spot place on it, empty when not said
     * @param shows what is to be seen, in words
     */
    public record Photo(String file, Digest digest, View view, Optional<Spot> spot, String shows) implements Fact {
        public Photo {
            Words.some("photo file", file);
            Words.some("what the photo shows", shows);
        }

        @Override
        public String kind() {
            return "photo";
        }

        @Override
        public String toString() {
            return "photo " + file + ", " + Words.of(view).replace('-', ' ')
                    + spot.map(s -> " of " + s).orElse("") + ": " + shows;
        }
    }

    /**
     * A failed part, or the piece cut out, was put by.
     *
     * @param part which, in the words of its line of parts
     * @param tag number on the tag
     * @param where shelf or box
     */
    public record Kept(String part, String tag, String where) implements Fact {
        public Kept {
            Words.some("kept part", part);
            Words.some("tag", tag);
            Words.some("where it is kept", where);
        }

        @Override
        public String kind() {
            return "kept";
        }

        @Override
        public String toString() {
            return "kept " + part + ", tag " + tag + ", " + where;
        }
    }

    /** Why a part is on the claim. */
    public enum Role {
        /** It failed first. */
        CAUSAL,
        /** It failed because of that. */
        CONSEQUENTIAL,
        /** The repair used it up. */
        USED
    }

    /** Sorts of part. */
    public enum Sort {
        WIRE,
        TERMINAL,
        SECTION,
        HARNESS,
        DEVICE,
        CONTROL_UNIT,
        FUSE,
        OTHER
    }

    /**
     * A part failed or was fitted.
     *
     * @param name in words
     * @param number part number, empty when there is none
     * @param quantity pieces or metres, over 0
     * @param price of one, in the circuit file's currency; empty when not said
     * @param spot where the failed one sat, empty when not said
     */
    public record Part(
            String name,
            Optional<String> number,
            BigDecimal quantity,
            Optional<BigDecimal> price,
            Role role,
            Sort sort,
            Optional<Spot> spot)
            implements Fact {
        public Part {
            Words.some("part", name);
            number.ifPresent(n -> Words.some("part number", n));
            quantity = plain("quantity", quantity);
            price = price.map(p -> plain("price", p));
            if (quantity.signum() == 0) throw new IllegalArgumentException("quantity is 0; allowed is over 0");
        }

        @Override
        public String kind() {
            return "part";
        }

        @Override
        public String toString() {
            return "part " + name + number.map(n -> ", number " + n).orElse("") + ", " + quantity.toPlainString()
                    + price.map(p -> " at " + p.toPlainString()).orElse("") + ", " + Words.of(role)
                    + spot.map(s -> ", at " + s).orElse("");
        }
    }

    private static BigDecimal plain(String what, BigDecimal given) {
        if (given.signum() < 0 || given.compareTo(MOST) > 0)
            throw new IllegalArgumentException(
                    what + " " + given.toPlainString() + " is not within 0 to " + MOST.toPlainString());
        if (given.scale() > 6) throw new IllegalArgumentException(what + " " + given + " has more than six decimals");
        return given.scale() < 0 ? given.setScale(0) : given;
    }

    /** What can be chosen; the words are those of the repair rules. */
    public enum Option {
        MONITOR,
        RESEAT,
        TERMINAL,
        PIGTAIL,
        SPLICE_REPAIR,
        OVERLAY_WIRE,
        BRANCH_SECTION,
        FULL_HARNESS,
        FUSE,
        DEVICE,
        CONTROL_UNIT;

        /** The word in files and rules. */
        public String word() {
            return Words.of(this);
        }
    }

    /** Why a place fails; who pays hangs on it. The words are those of the claim rules. */
    public enum Damage {
        RUB,
        HEAT,
        FLUID,
        INSTALLATION,
        ANIMAL,
        MODIFICATION,
        WEAR,
        COLLISION;

        /** The word in files and rules. */
        public String word() {
            return Words.of(this);
        }
    }

    /** What takes the whole, or nothing, and so is not one of two repairs in one visit. */
    private static final Set<Option> ALONE = EnumSet.of(Option.MONITOR, Option.FULL_HARNESS);

    /**
     * A second repair in the same visit.
     *
     * @param spot the second place that failed
     */
    public record Also(Option option, Spot spot) {
        public Also {
            if (ALONE.contains(option))
                throw new IllegalArgumentException(option.word() + " is not done together with a second repair");
        }
    }

    /**
     * Somebody decided what is wrong and what to do.
     *
     * @param spot the place that failed
     * @param reason why this and nothing smaller or larger, empty when not said
     * @param damage why the place failed, empty when not said
     * @param also the second repair of the same visit, where two places failed
     */
    public record Chose(Option option, Spot spot, String reason, Optional<Damage> damage, Optional<Also> also)
            implements Fact {
        public Chose {
            reason = Words.text("reason", reason.strip());
            if (also.isPresent() && ALONE.contains(option))
                throw new IllegalArgumentException(option.word() + " is not done together with a second repair");
        }

        /** One repair. */
        public Chose(Option option, Spot spot, String reason, Optional<Damage> damage) {
            this(option, spot, reason, damage, Optional.empty());
        }

        /** The places that failed, one or two. */
        public List<Spot> spots() {
            return Stream.concat(Stream.of(spot), also.map(Also::spot).stream())
                    .distinct()
                    .toList();
        }

        @Override
        public String kind() {
            return "chose";
        }

        @Override
        public String toString() {
            return "chose " + option.word().replace('-', ' ') + " for " + spot
                    + also.map(a -> " and " + a.option.word().replace('-', ' ') + " for " + a.spot)
                            .orElse("")
                    + damage.map(d -> ", failed by " + d.word()).orElse("") + Sentences.tail(reason);
        }
    }

    /**
     * Somebody has to agree, or did.
     *
     * @param what needs it, such as sublet work, overtime or a section
     * @param approver who agreed, empty when nobody did yet
     * @param number of the agreement
     * @param date of the agreement
     */
    public record Approved(String what, Optional<String> approver, Optional<String> number, Optional<LocalDate> date)
            implements Fact {
        public Approved {
            Words.some("what is approved", what);
            approver.ifPresent(a -> Words.some("approver", a));
            number.ifPresent(n -> Words.some("approval number", n));
        }

        @Override
        public String kind() {
            return "approved";
        }

        @Override
        public String toString() {
            return "approval of " + what + ": " + approver.orElse("nobody yet")
                    + number.map(n -> ", number " + n).orElse("")
                    + date.map(d -> ", " + d).orElse("");
        }
    }
}
