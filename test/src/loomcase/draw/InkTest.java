package loomcase.draw;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.syntax.ArchRuleDefinition;
import java.awt.Font;
import java.awt.font.FontRenderContext;
import java.awt.geom.AffineTransform;
import java.util.List;
import loomcase.model.Circuit;
import org.junit.jupiter.api.Test;

/** Ink and letters against what is published or measured outside the project. */
class InkTest {
    /** Relative luminance as WCAG 2.1 defines it, https://www.w3.org/TR/WCAG21/#dfn-relative-luminance. */
    private static double luminance(String hex) {
        double[] weight = {0.2126, 0.7152, 0.0722};
        double sum = 0;
        for (int i = 0; i < 3; i++) {
            double c = Integer.parseInt(hex.substring(1 + 2 * i, 3 + 2 * i), 16) / 255.0;
            sum += weight[i] * (c <= 0.03928 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4));
        }
        return sum;
    }

    /** https://www.w3.org/TR/WCAG21/#dfn-contrast-ratio. */
    private static double contrast(String a, String b) {
        double la = luminance(a);
        double lb = luminance(b);
        return (Math.max(la, lb) + 0.05) / (Math.min(la, lb) + 0.05);
    }

    /** 21 to 1 is the ratio of black to white that the definition itself names. */
    @Test
    void textAndLinesMeetThePublishedContrast() {
        assertEquals(21, contrast("#000000", "#ffffff"), 1e-9);
        for (String text : List.of(Ink.TEXT, Ink.QUIET, Ink.TRACE, Ink.shade(Ink.FILLED)))
            assertTrue(contrast(text, Ink.PAPER) >= 4.5, text);
        assertTrue(contrast(Ink.LOOM, Ink.PAPER) >= 3, Ink.LOOM);
        for (double share = 0; share <= 1; share += 0.01)
            assertTrue(contrast(Ink.shade(share), Ink.PAPER) >= 3, "share " + share);
    }

    @Test
    void moreSuspicionIsDarkerInGreyAndThicker() {
        for (double share = 0.01; share <= 1; share += 0.01) {
            assertTrue(luminance(Ink.shade(share)) <= luminance(Ink.shade(share - 0.01)));
            assertTrue(Ink.weight(share) > Ink.weight(share - 0.01));
        }
        assertTrue(contrast(Ink.shade(0.8), Ink.shade(0)) >= 2, "a strong suspect stands out in grey");
    }

    /** Measured by the JDK from the installed DejaVu fonts (https://dejavu-fonts.github.io), where they are installed. */
    @Test
    void lettersFitTheRoomReckonedForThem() {
        for (boolean bold : List.of(false, true)) {
            Font font = new Font("DejaVu Sans", bold ? Font.BOLD : Font.PLAIN, 100);
            assumeTrue(font.getFamily().equals("DejaVu Sans"), "DejaVu Sans is not installed");
            FontRenderContext context = new FontRenderContext(new AffineTransform(), true, true);
            Circuit c = Looms.read("larch-13.json");
            c.devices().values().forEach(d -> {
                double measured = font.getStringBounds(d.label(), context).getWidth();
                assertEquals(measured, Lettering.width(d.label(), 100, bold), 0.02 * measured, d.label());
            });
        }
    }

    @Test
    void longTextIsCutWithAnEllipsisAndNeverInsideACharacter() {
        assertEquals("abc", Lettering.fit("abc", 100, 12, false));
        assertEquals("aaaa…", Lettering.fit("aaaaaaaaaaaa", 42, 12, false));
        assertEquals("", Lettering.fit("abc", 3, 12, false));
        assertEquals("\ud83d\ude9c…", Lettering.fit("\ud83d\ude9c\ud83d\ude9c", 37, 12, false));
        assertEquals(List.of("engine control", "unit"), Lettering.wrap("engine control unit", 100, 12, false, 3));
    }

    @Test
    void theTwoHalvesOfAPlugShareTheirWords() {
        assertEquals("bulkhead plug", LeafBuilder.common("bulkhead plug, engine side", "bulkhead plug, far side"));
        assertEquals("cab plug", LeafBuilder.common("cab plug", "cab plug"));
        assertEquals("left half", LeafBuilder.common("left half", "right half"));
    }

    @Test
    void picturesKnowOnlyTheModel() {
        ArchRuleDefinition.classes()
                .that()
                .resideInAPackage("loomcase.draw..")
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage("loomcase", "loomcase.draw..", "loomcase.model", "java..")
                .check(new ClassFileImporter()
                        .withImportOption(new ImportOption.DoNotIncludeTests())
                        .importPackages("loomcase.draw"));
    }
}
