package loomcase.print;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;

/** What a {@link Section} is made of. All text is plain text; writers escape it. */
public sealed interface Block {

    /** Every phrase in the block, for links to evidence. */
    default Stream<Phrase> phrases() {
        return Stream.empty();
    }

    /**
     * Sentences that run on in one paragraph.
     *
     * @param sentences each with its own emphasis and evidence; writers put a blank between them
     */
    record Paragraph(List<Phrase> sentences) implements Block {
        public Paragraph {
            sentences = List.copyOf(sentences);
        }

        public static Paragraph of(String text) {
            return new Paragraph(List.of(Phrase.of(text)));
        }

        public static Paragraph of(Phrase... sentences) {
            return new Paragraph(List.of(sentences));
        }

        @Override
        public Stream<Phrase> phrases() {
            return sentences.stream();
        }
    }

    /** Points of a list whose order says nothing. */
    record Points(List<Phrase> points) implements Block {
        public Points {
            points = List.copyOf(points);
        }

        @Override
        public Stream<Phrase> phrases() {
            return points.stream();
        }
    }

    /** Names with their values, such as unit and serial. */
    record Details(List<Detail> details) implements Block {
        public Details {
            details = List.copyOf(details);
        }

        public static Details of(Detail... details) {
            return new Details(List.of(details));
        }

        @Override
        public Stream<Phrase> phrases() {
            return details.stream().map(Detail::value);
        }
    }

    /**
     * One name with its value.
     *
     * @param label the name, without a colon
     * @param value the value; an empty text is a line to write on
     */
    record Detail(String label, Phrase value) {
        public static Detail of(String label, String value) {
            return new Detail(label, Phrase.of(value));
        }

        /** A value that is filled in by hand. */
        public static Detail blank(String label) {
            return of(label, "");
        }
    }

    /** What the cells of a column hold. */
    enum Cells {
        /** Text, set from the start of the line. */
        TEXT,
        /** Numbers, set to the end of the line. */
        NUMBER,
        /** A box to tick by hand; the cells' own text is empty. */
        TICK,
        /** A line to write on by hand; the cells' own text is empty. */
        BLANK
    }

    /** One column: its heading, never empty, and what its cells hold. */
    record Column(String heading, Cells cells) {
        public Column {
            if (heading.isBlank()) throw new IllegalArgumentException("a column without a heading");
        }

        public static Column text(String heading) {
            return new Column(heading, Cells.TEXT);
        }

        public static Column number(String heading) {
            return new Column(heading, Cells.NUMBER);
        }

        public static Column tick(String heading) {
            return new Column(heading, Cells.TICK);
        }

        public static Column blank(String heading) {
            return new Column(heading, Cells.BLANK);
        }
    }

    /**
     * One row.
     *
     * @param cells one for each column, those of ticks and blanks empty
     * @param strong whether the row stands out: bold with a bar at its start, so that it needs no colour
     */
    record Row(List<Phrase> cells, boolean strong) {
        public Row {
            cells = List.copyOf(cells);
        }

        public static Row of(String... cells) {
            return new Row(Stream.of(cells).map(Phrase::of).toList(), false);
        }

        public static Row of(Phrase... cells) {
            return new Row(List.of(cells), false);
        }

        /** The same row, standing out. */
        public Row emphasised() {
            return new Row(cells, true);
        }
    }

    /**
     * A table. Its first column of text names the row; the heads repeat on every page and no row is split.
     *
     * @param caption what the table shows, never empty: a reader who hears the page needs it
     * @param columns at least one
     * @param rows each with as many cells as there are columns
     */
    record Table(String caption, List<Column> columns, List<Row> rows) implements Block {
        public Table {
            columns = List.copyOf(columns);
            rows = List.copyOf(rows);
            if (caption.isBlank()) throw new IllegalArgumentException("a table without a caption");
            if (columns.isEmpty()) throw new IllegalArgumentException("table '" + caption + "' without a column");
            for (Row row : rows) check(caption, columns, row);
        }

        private static void check(String caption, List<Column> columns, Row row) {
            if (row.cells().size() != columns.size())
                throw new IllegalArgumentException("table '" + caption + "' has " + columns.size()
                        + " columns, but a row has " + row.cells().size() + " cells: " + row.cells());
            for (int i = 0; i < columns.size(); i++) {
                Cells kind = columns.get(i).cells();
                boolean byHand = kind == Cells.TICK || kind == Cells.BLANK;
                if (byHand && !row.cells().get(i).text().isEmpty())
                    throw new IllegalArgumentException("table '" + caption + "': column '"
                            + columns.get(i).heading() + "' is filled in by hand, but a cell says "
                            + row.cells().get(i).text());
            }
        }

        @Override
        public Stream<Phrase> phrases() {
            return rows.stream().flatMap(r -> r.cells().stream());
        }
    }

    /** Things to do in this order, each with a box to tick. */
    record Steps(List<Step> steps) implements Block {
        public Steps {
            steps = List.copyOf(steps);
        }

        @Override
        public Stream<Phrase> phrases() {
            return steps.stream().map(Step::work);
        }
    }

    /**
     * One thing to do.
     *
     * @param work what to do
     * @param minutes time for it, if known
     * @param tools what is needed
     * @param cautions what can hurt here; written above the work and never parted from it
     * @param blank what to write down, with its unit, such as {@code "volts between T1.1 and T1.2"}; becomes a line to
     *     write on
     */
    record Step(
            Phrase work, OptionalDouble minutes, List<String> tools, List<String> cautions, Optional<String> blank) {
        public Step {
            tools = List.copyOf(tools);
            cautions = List.copyOf(cautions);
            if (minutes.isPresent() && !(minutes.getAsDouble() >= 0 && minutes.getAsDouble() < 1e6))
                throw new IllegalArgumentException("minutes " + minutes.getAsDouble() + " of step: " + work.text());
        }

        public static Step of(String work) {
            return new Step(Phrase.of(work), OptionalDouble.empty(), List.of(), List.of(), Optional.empty());
        }

        public Step minutes(double value) {
            return new Step(work, OptionalDouble.of(value), tools, cautions, blank);
        }

        public Step tools(String... names) {
            return new Step(work, minutes, List.of(names), cautions, blank);
        }

        public Step caution(String... texts) {
            return new Step(work, minutes, tools, List.of(texts), blank);
        }

        public Step blank(String what) {
            return new Step(work, minutes, tools, cautions, Optional.of(what));
        }
    }

    /** A caution that holds for what follows; one that belongs to a step stands in the step. */
    record Caution(String text) implements Block {}

    /**
     * A drawing.
     *
     * @param svg one self-contained SVG document, as {@code loomcase.draw.HarnessSvg} gives: no script, no reference to
     *     anything outside it, a {@code viewBox}
     * @param alt what it shows, for who cannot see it; never empty
     * @param caption words below it, may be empty
     * @throws IllegalArgumentException when the drawing is not such a document
     */
    record Figure(String svg, String alt, String caption) implements Block {
        public Figure {
            if (alt.isBlank()) throw new IllegalArgumentException("a figure without words for who cannot see it");
            Drawing.check(svg);
        }
    }

    /**
     * The lines of evidence that phrases cite, each with an anchor. A document has at most one.
     *
     * @param lines in the order of their numbers
     */
    record Evidence(List<Line> lines) implements Block {
        public Evidence {
            lines = List.copyOf(lines);
            Set<Integer> seen = new HashSet<>();
            for (Line line : lines)
                if (!seen.add(line.number()))
                    throw new IllegalArgumentException("evidence line " + line.number() + " stands twice");
        }
    }

    /**
     * One line of evidence.
     *
     * @param number its number in the case file, from 1
     * @param when when it was written, ISO 8601, or empty
     * @param words what it says
     * @param withdrawn whether a later line takes it back; it is then struck through and said to be so
     */
    record Line(int number, String when, String words, boolean withdrawn) {
        public Line {
            if (number < 1) throw new IllegalArgumentException("evidence line " + number);
        }
    }

    /**
     * A photograph, shown or only named.
     *
     * @param file its file name
     * @param sha256 digest of the file, 64 hexadecimal digits
     * @param shows what it shows, also for who cannot see it; never empty
     * @param picture the photograph, if it is to be shown
     * @param about sentences above it, on its page; may be empty
     */
    record Photo(String file, String sha256, String shows, Optional<Picture> picture, List<Phrase> about)
            implements Block {
        /** A photograph with nothing said above it. */
        public Photo(String file, String sha256, String shows, Optional<Picture> picture) {
            this(file, sha256, shows, picture, List.of());
        }

        public Photo {
            about = List.copyOf(about);
            if (!sha256.matches("[0-9a-f]{64}"))
                throw new IllegalArgumentException("photo " + file + ": '" + sha256 + "' is not a SHA-256 digest");
            if (shows.isBlank())
                throw new IllegalArgumentException("photo " + file + " without words for what it shows");
        }

        @Override
        public Stream<Phrase> phrases() {
            return about.stream();
        }
    }

    /** Begin a new page here where there are pages. */
    record PageBreak() implements Block {}
}
