package loomcase.claim;

import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.journal.ClaimFact;
import loomcase.journal.Digest;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import loomcase.policy.ClaimCase;
import loomcase.policy.ClaimOutcome;
import loomcase.print.Phrase;

/**
 * A claim made from a case, in one language. Every phrase names the journal lines that it was made from.
 *
 * @param about machine, case and people
 * @param complaint what the customer says and what was shown
 * @param cause what failed, where, how it was found
 * @param correction what was done and how it was proved
 * @param codes each reading of the codes
 * @param readings each meter reading
 * @param photos each photo
 * @param choice what was decided, empty when the journal does not say
 * @param reasoning what the verdict of that moment weighs, empty when it was not computed
 * @param bill labour and parts
 * @param kept what was put by
 * @param approvals agreements, given or still missing
 * @param proven how the checks after the work stand; empty where no work is on record
 * @param contradictions where the case says two things that cannot both be
 * @param outcome what the claim rules say
 * @param evidence every line of the journal, corrections among them
 */
public record Packet(
        About about,
        List<Phrase> complaint,
        List<Phrase> cause,
        List<Phrase> correction,
        List<CodesLine> codes,
        List<ReadingLine> readings,
        List<PhotoLine> photos,
        Optional<Choice> choice,
        Optional<Reasoning> reasoning,
        Bill bill,
        List<KeptLine> kept,
        List<ApprovalLine> approvals,
        Optional<Proven> proven,
        List<Phrase> contradictions,
        ClaimOutcome outcome,
        List<EvidenceLine> evidence) {
    public Packet {
        complaint = List.copyOf(complaint);
        cause = List.copyOf(cause);
        correction = List.copyOf(correction);
        codes = List.copyOf(codes);
        readings = List.copyOf(readings);
        photos = List.copyOf(photos);
        kept = List.copyOf(kept);
        approvals = List.copyOf(approvals);
        contradictions = List.copyOf(contradictions);
        evidence = List.copyOf(evidence);
    }

    /** True when no rule blocks it and it does not contradict itself. */
    public boolean canBeSent() {
        return outcome.canBeSent() && contradictions.isEmpty();
    }

    /** Before the first repair, after the last, or between them. */
    public enum Stage {
        BEFORE,
        BETWEEN,
        AFTER;

        /** The word in JSON; the claim rules know the first and the last. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /**
     * What a claim is about.
     *
     * @param caseFile name of the case file
     * @param opened the opening as it holds
     * @param circuitTitle the harness in words
     * @param origin where the circuit data comes from
     * @param people who wrote lines, in order of first appearance
     * @param technician who did the last repair; empty when there is none
     * @param from time of the first line
     * @param to time of the last line
     * @param clockedMinutes from the first to the last line of tests, access and work; 0 where there are none
     * @param lines number of lines
     * @param digest of the last line
     */
    public record About(
            String caseFile,
            Fact.Opened opened,
            String circuitTitle,
            String origin,
            List<String> people,
            Optional<String> technician,
            OffsetDateTime from,
            OffsetDateTime to,
            double clockedMinutes,
            int lines,
            Digest digest) {
        public About {
            people = List.copyOf(people);
        }
    }

    /** The codes were read. */
    public record CodesLine(Stage stage, int line, OffsetDateTime at, Fact.Codes codes) {}

    /**
     * A meter was read.
     *
     * @param id what was measured between which points, same before and after
     * @param limit what a healthy harness shows there; empty when it cannot be predicted
     */
    public record ReadingLine(
            Stage stage, int line, OffsetDateTime at, String id, Fact.Reading reading, Optional<Limit> limit) {
        /** Whether the reading is out of its limit; {@code false} when there is none. */
        public boolean out() {
            return limit.map(l -> !l.holds(reading.shown())).orElse(false);
        }
    }

    /** How the file of a photo stands against its digest. */
    public enum PhotoState {
        /** There, and the same bytes. */
        SAME,
        /** There, and other bytes. */
        CHANGED,
        /** Not there. */
        MISSING;

        /** The word in JSON. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /** A photo. */
    public record PhotoLine(int line, ClaimFact.Photo photo, PhotoState state) {}

    /** What was decided. */
    public record Choice(int line, ClaimFact.Chose chose) {
        /** The place that failed. */
        public Spot spot() {
            return chose.spot();
        }

        /** All places that failed, one or two. */
        public List<Spot> spots() {
            return chose.spots();
        }

        /** What was chosen, in the verdict's words. */
        public String option() {
            return chose.also().isPresent()
                    ? ClaimCase.TWO_REPAIRS
                    : chose.option().word();
        }
    }

    /**
     * Why this option and not a cheaper or dearer one, from the verdict made of the lines before the repair.
     *
     * @param verdict what it said: an option of the repair rules, or one of the verdict's words for not settled
     * @param words one sentence each
     * @param costs the options side by side, cheapest first
     * @param breakEvens what would flip it, one sentence each
     * @param requiringRule repair rule that required what was chosen, empty for none
     * @param forbiddingRule repair rule that forbids what was chosen, empty for none
     * @param needsApproval what of it somebody has to agree to, rules' words
     */
    public record Reasoning(
            String verdict,
            List<String> words,
            List<OptionCost> costs,
            List<String> breakEvens,
            String requiringRule,
            String forbiddingRule,
            List<String> needsApproval) {
        public Reasoning {
            needsApproval = List.copyOf(needsApproval);
            words = List.copyOf(words);
            costs = List.copyOf(costs);
            breakEvens = List.copyOf(breakEvens);
        }
    }

    /**
     * One option with its money.
     *
     * @param option word of the repair rules
     * @param words what is done
     * @param now paid now, in the circuit file's currency
     * @param expected now and later
     * @param rules what forbids or requires it or needs approval, rules' words; mere cautions are left out
     */
    public record OptionCost(
            String option, String words, BigDecimal now, BigDecimal expected, boolean forbidden, List<String> rules) {
        public OptionCost {
            rules = List.copyOf(rules);
        }
    }

    /**
     * Labour and parts; money in the circuit file's currency, each amount rounded half up to two decimals.
     *
     * @param open lines of parts without a price; the total does not hold them
     */
    public record Bill(
            List<LabourLine> labour,
            List<PartLine> parts,
            BigDecimal ratePerHour,
            BigDecimal labourTotal,
            BigDecimal partsTotal,
            String currency,
            int open) {
        public Bill {
            labour = List.copyOf(labour);
            parts = List.copyOf(parts);
        }

        /** Labour and priced parts. */
        public BigDecimal total() {
            return labourTotal.add(partsTotal);
        }
    }

    /**
     * A line of labour.
     *
     * @param kind of the claim rules: diagnosis, access, repair or proof
     * @param step id of the access step, empty otherwise
     * @param words what was done
     * @param minutes claimed; 0 where another line holds them
     * @param straightTime as it took, with no set figure
     * @param explained why it took that long is said
     */
    public record LabourLine(
            String kind,
            String step,
            Phrase words,
            BigDecimal minutes,
            BigDecimal amount,
            boolean straightTime,
            boolean explained) {}

    /**
     * A line of parts.
     *
     * @param each price of one; empty where neither journal nor circuit file has one
     * @param fromCircuit the price is that of the circuit file
     * @param tag of the kept part, empty when it is not kept
     */
    public record PartLine(
            int line,
            ClaimFact.Part part,
            Optional<BigDecimal> each,
            Optional<BigDecimal> amount,
            boolean fromCircuit,
            Optional<String> tag) {}

    /** Something put by. */
    public record KeptLine(int line, ClaimFact.Kept kept) {}

    /** An agreement. */
    public record ApprovalLine(int line, ClaimFact.Approved approved) {}

    /**
     * Checks of the proof sheet.
     *
     * @param passed done and passed
     * @param all there are
     */
    public record Proven(int passed, int all) {}

    /**
     * A line of the journal.
     *
     * @param words what it says
     * @param withdrawn a later line holds instead
     */
    public record EvidenceLine(int line, OffsetDateTime at, String by, String words, boolean withdrawn) {}

    /**
     * What a healthy harness shows.
     *
     * @param words as printed
     * @param low least value, volts or ohms; empty where only over range is healthy
     * @param high greatest value
     * @param openToo over range is healthy too
     */
    public record Limit(String words, OptionalDouble low, OptionalDouble high, boolean openToo) {
        boolean holds(loomcase.journal.Shown shown) {
            OptionalDouble value = shown.value();
            if (value.isEmpty()) return openToo;
            if (low.isEmpty()) return false;
            return value.getAsDouble() >= low.getAsDouble()
                    && (openToo || value.getAsDouble() <= high.orElse(Double.POSITIVE_INFINITY));
        }
    }
}
