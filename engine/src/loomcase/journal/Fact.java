package loomcase.journal;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import loomcase.j1939.Code;
import loomcase.j1939.Dtc;
import loomcase.j1939.Lamps;
import loomcase.model.Finding;

/**
 * What one line of a case says: one record a kind. {@link #kind()} is the word in the file; {@link #toString()} is a
 * sentence for people.
 */
public sealed interface Fact
        permits Fact.Opened,
                Fact.Codes,
                Fact.Tested,
                Fact.OpenedAccess,
                Fact.ClosedAccess,
                Fact.Refused,
                Fact.Work,
                Fact.Correction,
                Fact.Note,
                ClaimFact.Photo,
                ClaimFact.Kept,
                ClaimFact.Part,
                ClaimFact.Chose,
                ClaimFact.Approved {
    /** The word used in files, such as {@code reading}. */
    String kind();

    /** A test that was made, with what it showed. */
    sealed interface Tested extends Fact permits Reading, Watched, Moved, Seen, Swapped, Gauged {}

    /**
     * The case was opened; always the first line and only there.
     *
     * @param circuit the circuit file the case is about
     * @param complaint what the driver or customer says
     * @param unit id of the machine, empty when not said
     * @param hours engine hours, 0 or more; empty when not said
     * @param machine what else is known of the machine
     */
    record Opened(CircuitFile circuit, String complaint, Optional<String> unit, OptionalDouble hours, Machine machine)
            implements Fact {
        /** More hours than any engine runs. */
        public static final double MOST_HOURS = 1e6;

        /** An opening that says no more of the machine. */
        public Opened(CircuitFile circuit, String complaint, Optional<String> unit, OptionalDouble hours) {
            this(circuit, complaint, unit, hours, Machine.NOT_SAID);
        }

        public Opened {
            Words.some("complaint", complaint);
            unit.ifPresent(u -> Words.some("unit", u));
            if (hours.isPresent() && !(hours.getAsDouble() >= 0 && hours.getAsDouble() <= MOST_HOURS))
                throw new IllegalArgumentException("hours " + hours.getAsDouble() + " are not within 0 to 1000000");
        }

        @Override
        public String kind() {
            return "opened";
        }

        @Override
        public String toString() {
            return "opened: " + complaint;
        }
    }

    /**
     * A circuit file as it was when the case was opened.
     *
     * @param file path from the folder of the case file, or from the root; divided by {@code /}
     * @param id id of the circuit
     * @param digest SHA-256 of the file's bytes
     */
    record CircuitFile(String file, String id, Digest digest) {
        public CircuitFile {
            Words.some("circuit file", file);
            Words.some("circuit id", id);
        }
    }

    /** Whether a code is there now or was there before. */
    enum State {
        ACTIVE,
        STORED
    }

    /**
     * One code read.
     *
     * @param count occurrence count, 0 to 126; empty where none was shown
     */
    record ReadCode(Code code, OptionalInt count, State state) {
        public ReadCode {
            if (count.isPresent() && (count.getAsInt() < 0 || count.getAsInt() > Dtc.MAX_COUNT))
                throw new IllegalArgumentException(
                        "count " + count.getAsInt() + " of code " + code + " is not within 0 to " + Dtc.MAX_COUNT);
        }

        @Override
        public String toString() {
            return code + (count.isPresent() ? "x" + count.getAsInt() : "");
        }
    }

    /**
     * A log that codes came from.
     *
     * @param file its name
     * @param digest SHA-256 of its bytes
     */
    record LogFile(String file, Digest digest) {
        public LogFile {
            Words.some("log file", file);
        }
    }

    /**
     * Codes were read, all that were there.
     *
     * @param codes each once; none means that the control unit had no code
     * @param operatingPoints where the control unit had looked, at least one
     * @param log where they came from; empty when they were typed
     * @param lamps as sent or seen, empty when not said
     */
    record Codes(List<ReadCode> codes, List<String> operatingPoints, Optional<LogFile> log, Optional<Lamps> lamps)
            implements Fact {
        public Codes {
            codes = List.copyOf(codes);
            operatingPoints = List.copyOf(operatingPoints);
            if (codes.stream().map(ReadCode::code).distinct().count() < codes.size())
                throw new IllegalArgumentException("a code is given twice in " + codes);
            if (operatingPoints.isEmpty()) throw new IllegalArgumentException("codes need an operating point");
            if (new HashSet<>(operatingPoints).size() < operatingPoints.size())
                throw new IllegalArgumentException("an operating point is given twice in " + operatingPoints);
        }

        @Override
        public String kind() {
            return "codes";
        }

        @Override
        public String toString() {
            return Sentences.codes(this);
        }
    }

    /** What a reading measures. */
    enum Test {
        VOLTS,
        OHMS,
        /** Volts lost over a stretch while current flows. */
        DROP,
        /** Ohms between what should not touch. */
        ISOLATION;

        /** The word used in files and on screens. */
        public String word() {
            return Words.of(this);
        }

        /** What the meter must have shown. */
        public Shown.Quantity quantity() {
            return this == VOLTS || this == DROP ? Shown.Quantity.VOLTS : Shown.Quantity.OHMS;
        }
    }

    /**
     * A meter was read.
     *
     * @param a point of the red lead, named as {@link loomcase.model.Names} says
     * @param b point of the black lead
     * @param shown what the meter showed, lead zero already taken off
     */
    record Reading(Test test, String a, String b, Shown shown, Setup setup, Meter meter) implements Tested {
        public Reading {
            if (a.isBlank() || b.isBlank()) throw new IllegalArgumentException("a reading needs two points");
        }

        @Override
        public String kind() {
            return "reading";
        }

        @Override
        public String toString() {
            return Sentences.reading(this);
        }
    }

    /** How a code was watched. */
    enum Method {
        UNPLUG,
        JUMPER
    }

    /**
     * Something was unplugged or bridged with power on, and the codes were watched.
     *
     * @param setup powered, with what was unplugged or clipped on
     * @param active every code active then, each once; none means that all went
     */
    record Watched(Method method, Setup setup, List<Code> active) implements Tested {
        public Watched {
            active = List.copyOf(active);
            if (!setup.powered()) throw new IllegalArgumentException("codes can only be watched with the key on");
            if (method == Method.UNPLUG && setup.unplugged().isEmpty())
                throw new IllegalArgumentException("unplug and watch needs a connector that was unplugged");
            if (method == Method.JUMPER && setup.jumpers().isEmpty())
                throw new IllegalArgumentException("jumper and watch needs a jumper");
            if (new HashSet<>(active).size() < active.size())
                throw new IllegalArgumentException("a code is given twice in " + active);
        }

        @Override
        public String kind() {
            return "watched";
        }

        @Override
        public String toString() {
            return Words.of(method) + " and watch: active " + Sentences.list(active) + " (" + setup + ")";
        }
    }

    /** How a place was disturbed. */
    enum Action {
        WIGGLE,
        HEAT,
        SPRAY
    }

    /**
     * A place was disturbed while something was watched.
     *
     * @param response whether what was watched changed
     * @param what what was watched and what it did; may be empty when nothing changed
     */
    record Moved(Action action, Spot spot, boolean response, String what, Setup setup) implements Tested {
        public Moved {
            what = Words.text("what", what.strip());
            if (response) Words.some("what changed", what);
        }

        @Override
        public String kind() {
            return "moved";
        }

        @Override
        public String toString() {
            return Words.of(action) + " at " + spot + ": " + (response ? "response" : "no response")
                    + Sentences.tail(what) + " (" + setup + ")";
        }
    }

    /** Somebody looked at a place. */
    record Seen(Spot spot, Finding finding, String note) implements Tested {
        public Seen {
            note = Words.text("note", note.strip());
        }

        @Override
        public String kind() {
            return "seen";
        }

        @Override
        public String toString() {
            return "seen at " + spot + ": " + finding.word().replace('-', ' ') + Sentences.tail(note);
        }
    }

    /** What the codes did after a swap. */
    enum Outcome {
        /** The codes went with the part. */
        FOLLOWED,
        /** The codes stayed with the plug. */
        STAYED,
        /** No such code came back in either place. */
        GONE
    }

    /**
     * A part changed place with one of its kind.
     *
     * @param part the suspected part, as a place
     * @param with its neighbour
     */
    record Swapped(Spot part, Spot with, Outcome outcome, String note) implements Tested {
        public Swapped {
            note = Words.text("note", note.strip());
            if (part.equals(with)) throw new IllegalArgumentException(part + " cannot be swapped with itself");
        }

        @Override
        public String kind() {
            return "swapped";
        }

        @Override
        public String toString() {
            return "swapped " + part + " with " + with + ": codes "
                    + (outcome == Outcome.FOLLOWED ? "followed" : outcome == Outcome.STAYED ? "stayed" : "are gone")
                    + Sentences.tail(note);
        }
    }

    /**
     * The engine itself was measured or looked at where a sensor reports on it: by gauge, thermometer, dipstick or eye.
     *
     * @param part the sensor, as a place
     * @param condition id of the condition of the engine that was found, or {@link #HEALTHY}
     */
    record Gauged(Spot part, String condition, String note) implements Tested {
        /** The word where the engine is as it should be. */
        public static final String HEALTHY = "healthy";

        public Gauged {
            Words.some("condition", condition);
            note = Words.text("note", note.strip());
        }

        @Override
        public String kind() {
            return "gauged";
        }

        @Override
        public String toString() {
            return "gauged what " + part + " reports: " + condition.replace('-', ' ') + Sentences.tail(note);
        }
    }

    /** An access step was done. */
    record OpenedAccess(String step) implements Fact {
        public OpenedAccess {
            Words.some("access step", step);
        }

        @Override
        public String kind() {
            return "opened-access";
        }

        @Override
        public String toString() {
            return "access opened: " + step;
        }
    }

    /** An access step was undone. */
    record ClosedAccess(String step) implements Fact {
        public ClosedAccess {
            Words.some("access step", step);
        }

        @Override
        public String kind() {
            return "closed-access";
        }

        @Override
        public String toString() {
            return "access closed: " + step;
        }
    }

    /**
     * The technician will not do a proposed test.
     *
     * @param test id of the test, such as {@code volts C-ECT/1}
     */
    record Refused(String test, String reason) implements Fact {
        public Refused {
            Words.some("test", test);
            Words.some("reason", reason);
        }

        @Override
        public String kind() {
            return "refused";
        }

        @Override
        public String toString() {
            return "refused test " + test + ": " + reason;
        }
    }

    /** What was done to the engine. */
    enum Deed {
        REPAIRED,
        REPLACED,
        RESEATED,
        CLEANED,
        REROUTED,
        CLEARED_CODES
    }

    /**
     * Work was done.
     *
     * @param spot where; empty only for cleared codes
     * @param minutes time it took, access and tests apart, 0 to {@link #MOST_MINUTES}; empty when not clocked
     */
    record Work(Deed deed, Optional<Spot> spot, String note, OptionalDouble minutes) implements Fact {
        /** More minutes than one piece of work takes. */
        public static final double MOST_MINUTES = 1e5;

        /** Work that was not clocked. */
        public Work(Deed deed, Optional<Spot> spot, String note) {
            this(deed, spot, note, OptionalDouble.empty());
        }

        public Work {
            note = Words.text("note", note.strip());
            if (minutes.isPresent() && !(minutes.getAsDouble() >= 0 && minutes.getAsDouble() <= MOST_MINUTES))
                throw new IllegalArgumentException("minutes " + minutes.getAsDouble() + " are not within 0 to 100000");
            if (spot.isEmpty() != (deed == Deed.CLEARED_CODES))
                throw new IllegalArgumentException(
                        deed == Deed.CLEARED_CODES
                                ? "cleared-codes takes no place"
                                : Words.of(deed) + " needs the place where it was done");
        }

        @Override
        public String kind() {
            return "work";
        }

        @Override
        public String toString() {
            String time = minutes.isPresent() ? ", " + Shown.plain(minutes.getAsDouble()) + " min" : "";
            return Words.of(deed).replace('-', ' ') + spot.map(s -> " " + s).orElse("") + Sentences.tail(note) + time;
        }
    }

    /**
     * An earlier line was wrong; it stays in the file and this holds instead.
     *
     * @param corrects number of that line
     * @param replacement what it should have said, a note where nothing should stand
     */
    record Correction(int corrects, Fact replacement) implements Fact {
        public Correction {
            if (corrects < 1) throw new IllegalArgumentException("lines count from 1, not " + corrects);
            if (replacement instanceof Correction)
                throw new IllegalArgumentException("a correction cannot be replaced by a correction");
        }

        @Override
        public String kind() {
            return "correction";
        }

        @Override
        public String toString() {
            return "correction of line " + corrects + ": " + replacement;
        }
    }

    /** Anything else worth keeping. */
    record Note(String text) implements Fact {
        public Note {
            Words.some("note", text);
        }

        @Override
        public String kind() {
            return "note";
        }

        @Override
        public String toString() {
            return "note: " + text;
        }
    }
}
