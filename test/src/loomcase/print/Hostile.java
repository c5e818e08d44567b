package loomcase.print;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;

/** A document whose every text means harm, or is only unfit to print. */
final class Hostile {
    static final String SCRIPT = "<script>alert('x')</script> & \"quoted\" ]]> --> </style>";
    static final String LONG = "x".repeat(400);
    static final String RIGHT_TO_LEFT = "\u05d0\u05d1\u05d2 \u202eturned\u202c end";
    static final String CONTROL = "bell \u0007 escape \u001b[2J null \u0000 end";
    static final String ELSEWHERE = "日本 😀";

    private Hostile() {}

    static Document document() {
        String all = String.join(" | ", SCRIPT, LONG, RIGHT_TO_LEFT, CONTROL, ELSEWHERE);
        return new Document(
                SCRIPT,
                all,
                Locale.ENGLISH,
                LocalDate.of(2026, 3, 14),
                List.of(Block.Detail.of(SCRIPT, all)),
                List.of(Section.of(
                        SCRIPT,
                        Block.Paragraph.of(all),
                        new Block.Caution(all),
                        new Block.Steps(List.of(
                                Block.Step.of(all).tools(SCRIPT).caution(SCRIPT).blank(SCRIPT))),
                        new Block.Table(
                                SCRIPT,
                                List.of(Block.Column.text(SCRIPT), Block.Column.number("n")),
                                List.of(Block.Row.of(all, LONG))),
                        new Block.Figure(Sheets.drawing(300, 80), SCRIPT, SCRIPT),
                        new Block.Photo(SCRIPT, Sheets.DIGEST, SCRIPT, java.util.Optional.of(Sheets.picture())),
                        new Block.Evidence(List.of(new Block.Line(1, SCRIPT, all, true))))),
                SCRIPT);
    }
}
