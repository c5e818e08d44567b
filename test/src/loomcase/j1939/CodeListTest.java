package loomcase.j1939;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;

class CodeListTest {
    private static final String FORM = "; write SPN/FMI or SPN/FMIxCOUNT, as in 110/3,100/4x2";

    @Test
    void codesAreReadWithAndWithoutCount() {
        assertEquals(
                List.of(entry(110, 3, OptionalInt.empty()), entry(100, 4, OptionalInt.of(2))),
                CodeList.parse(" 110/3 , 100/4x2 ").entries());
        assertEquals(
                List.of(entry(524287, 31, OptionalInt.of(126))),
                CodeList.parse("524287/31X126").entries());
    }

    @Test
    void anEmptyTextIsAnEmptyList() {
        assertEquals(List.of(), CodeList.parse("  ").entries());
    }

    @Test
    void mistakesAreNamedWithThePartAndWhatIsAllowed() {
        assertEquals("code '110' has no '/' between SPN and FMI" + FORM, problem("110"));
        assertEquals("code '524288/1': SPN 524288 is outside 0..524287", problem("110/3,524288/1"));
        assertEquals("code '110/32': FMI 32 is outside 0..31", problem("110/32"));
        assertEquals("code '110/3x0': count 0 is outside 1..126", problem("110/3x0"));
        assertEquals("code '110/3x127': count 127 is outside 1..126", problem("110/3x127"));
        assertEquals("code '110/3x': count '' is not a whole number" + FORM, problem("110/3x"));
        assertEquals("code '-1/3': SPN '-1' is not a whole number" + FORM, problem("-1/3"));
        assertEquals("code '110/3/4': FMI '3/4' is not a whole number" + FORM, problem("110/3/4"));
        assertEquals("code '99999999999/3': SPN 99999999999 is outside 0..524287", problem("99999999999/3"));
        assertEquals("a code is missing between commas in '110/3,,1/1'" + FORM, problem("110/3,,1/1"));
        assertEquals(
                "code 110/3 is given twice in '110/3,110/3x2'; give it once, with its count", problem("110/3,110/3x2"));
    }

    @Test
    void whatIsWrittenIsReadBack() {
        Random random = new Random(73);
        for (int i = 0; i < 2000; i++) {
            CodeList list = new CodeList(List.of(entry(
                    random.nextInt(Code.MAX_SPN + 1),
                    random.nextInt(Code.MAX_FMI + 1),
                    random.nextBoolean() ? OptionalInt.empty() : OptionalInt.of(1 + random.nextInt(126)))));
            assertEquals(list, CodeList.parse(list.toString()));
        }
    }

    @Test
    void anyTextGivesAListOrAProblemAndNothingElse() {
        Random random = new Random(7);
        String letters = "0123456789/x,X -é\n٣";
        for (int i = 0; i < 20_000; i++) {
            StringBuilder text = new StringBuilder();
            for (int c = random.nextInt(12); c > 0; c--) {
                text.append(letters.charAt(random.nextInt(letters.length())));
            }
            try {
                CodeList.parse(text.toString()).entries().forEach(e -> e.code().spn());
            } catch (CodeProblem expected) {
                assertEquals(false, expected.getMessage().isEmpty());
            }
        }
    }

    private static CodeList.Entry entry(int spn, int fmi, OptionalInt count) {
        return new CodeList.Entry(new Code(spn, fmi), count);
    }

    private static String problem(String text) {
        return assertThrows(CodeProblem.class, () -> CodeList.parse(text)).getMessage();
    }
}
