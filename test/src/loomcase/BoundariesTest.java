package loomcase;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.type;
import static com.tngtech.archunit.lang.conditions.ArchConditions.accessField;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import loomcase.model.Costs;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Data flows one way: which package may know which, held on the compiled classes. */
class BoundariesTest {
    private static final JavaClasses CLASSES = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("loomcase");

    /** For each package, its parts included, the others that it may use; a package that is not listed fails. */
    private static final Map<String, List<String>> MAY_USE = Map.ofEntries(
            Map.entry("j1939", List.of()),
            Map.entry("build", List.of()),
            Map.entry("policy", List.of()),
            // Compiled from the rule texts; rules see facts and nothing of the engine.
            Map.entry("rules", List.of("policy")),
            Map.entry("model", List.of("j1939")),
            Map.entry("solve", List.of("model")),
            Map.entry("faults", List.of("model")),
            Map.entry("draw", List.of("model")),
            Map.entry("print", List.of()),
            Map.entry("predict", List.of("model", "solve", "policy", "j1939")),
            Map.entry("cache", List.of("predict", "journal")),
            Map.entry("meter", List.of("model", "solve", "predict", "j1939")),
            Map.entry("journal", List.of("model", "j1939")),
            Map.entry("rank", List.of("model", "faults", "solve", "predict", "meter", "policy", "j1939")),
            Map.entry("plan", List.of("model", "faults", "meter", "rank")),
            Map.entry("verdict", List.of("model", "faults", "meter", "rank", "plan", "policy")),
            Map.entry("proof", List.of("model", "journal", "j1939", "rank", "meter", "print")),
            Map.entry("job", List.of("model", "policy", "print")),
            Map.entry("check", List.of("model", "faults", "solve", "predict", "policy", "j1939")),
            Map.entry("intake", List.of("j1939", "model", "journal", "meter", "faults", "rank")),
            Map.entry(
                    "casework",
                    List.of(
                            "j1939", "model", "faults", "policy", "predict", "meter", "journal", "rank", "plan",
                            "intake", "draw", "verdict")),
            Map.entry(
                    "drill",
                    List.of(
                            "j1939",
                            "model",
                            "faults",
                            "solve",
                            "policy",
                            "predict",
                            "meter",
                            "journal",
                            "rank",
                            "plan",
                            "intake",
                            "casework")),
            Map.entry(
                    "study",
                    List.of(
                            "j1939",
                            "model",
                            "faults",
                            "solve",
                            "policy",
                            "predict",
                            "meter",
                            "journal",
                            "rank",
                            "plan",
                            "intake",
                            "verdict",
                            "casework",
                            "drill")),
            Map.entry(
                    "fit", List.of("j1939", "model", "faults", "solve", "policy", "predict", "meter", "draw", "print")),
            Map.entry("inspect", List.of("j1939", "model", "journal", "meter", "rank", "plan", "intake", "casework")),
            Map.entry(
                    "json",
                    List.of(
                            "j1939",
                            "model",
                            "journal",
                            "meter",
                            "rank",
                            "plan",
                            "intake",
                            "casework",
                            "inspect",
                            "fit",
                            "verdict",
                            "policy",
                            "drill",
                            "job",
                            "proof",
                            "claim",
                            "study",
                            "print")),
            Map.entry(
                    "web",
                    List.of(
                            "j1939",
                            "model",
                            "journal",
                            "rank",
                            "intake",
                            "casework",
                            "inspect",
                            "draw",
                            "json",
                            "verdict",
                            "fit",
                            "job",
                            "proof",
                            "print",
                            "drill",
                            "claim")),
            Map.entry(
                    "claim",
                    List.of(
                            "j1939",
                            "policy",
                            "model",
                            "meter",
                            "journal",
                            "rank",
                            "verdict",
                            "intake",
                            "casework",
                            "draw",
                            "print",
                            "proof",
                            "translate")),
            Map.entry("translate", List.of("print")),
            Map.entry("fleet", List.of("j1939", "model", "journal", "intake", "casework", "json")),
            Map.entry(
                    "cli",
                    List.of(
                            "study",
                            "verdict",
                            "policy",
                            "j1939",
                            "model",
                            "predict",
                            "meter",
                            "journal",
                            "rank",
                            "plan",
                            "check",
                            "intake",
                            "draw",
                            "print",
                            "fit",
                            "cache",
                            "casework",
                            "drill",
                            "job",
                            "proof",
                            "json",
                            "fleet",
                            "claim",
                            "web")));

    @TestFactory
    List<DynamicTest> packageUsesOnlyWhatStandsBeforeIt() {
        return MAY_USE.entrySet().stream()
                .map(e -> DynamicTest.dynamicTest(e.getKey(), () -> noClasses()
                        .that()
                        .resideInAPackage(within(e.getKey()))
                        .should()
                        .dependOnClassesThat(othersThan(e.getKey(), e.getValue()))
                        .check(CLASSES)))
                .toList();
    }

    private static String within(String name) {
        return "loomcase." + name + "..";
    }

    /** Loomcase's own classes outside a package and those it may use; the root holds only what all share. */
    private static DescribedPredicate<JavaClass> othersThan(String name, List<String> allowed) {
        DescribedPredicate<JavaClass> others = resideInAPackage("loomcase.*..");
        for (String each : allowed) others = others.and(DescribedPredicate.not(resideInAPackage(within(each))));
        return others.and(DescribedPredicate.not(resideInAPackage(within(name))))
                .as("Loomcase's packages other than " + name + " and " + allowed);
    }

    @Test
    void everyPackageHasItsPlace() {
        TreeSet<String> present = new TreeSet<>();
        for (JavaClass c : CLASSES) {
            String[] parts = c.getPackageName().split("\\.");
            if (parts.length > 1) present.add(parts[1]);
        }
        assertEquals(new TreeMap<>(MAY_USE).keySet(), present);
    }

    @Test
    void packagesFormNoCycle() {
        slices().matching("loomcase.(*)..").should().beFreeOfCycles().check(CLASSES);
    }

    @Test
    void vocabularyDoesNotKnowItsReader() {
        noClasses()
                .that()
                .resideInAPackage("loomcase.j1939")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("loomcase.j1939.log..")
                .check(CLASSES);
    }

    @Test
    void modelDoesNotKnowItsReader() {
        noClasses()
                .that()
                .resideInAPackage("loomcase.model")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("loomcase.model.read..")
                .check(CLASSES);
    }

    @Test
    void onlyIntakeAndFacesKnowLogs() {
        noClasses()
                .that()
                .resideOutsideOfPackages(
                        "loomcase.j1939..", "loomcase.intake..", "loomcase.json..", "loomcase.web..", "loomcase.cli..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("loomcase.j1939.log..")
                .check(CLASSES);
    }

    @Test
    void ranksAndTestsKnowNoMoney() {
        noClasses()
                .that()
                .resideInAnyPackage(
                        "loomcase.j1939..",
                        "loomcase.solve..",
                        "loomcase.faults..",
                        "loomcase.predict..",
                        "loomcase.policy..",
                        "loomcase.rank..",
                        "loomcase.plan..",
                        "loomcase.intake..",
                        "loomcase.draw..")
                .should()
                .dependOnClassesThat(type(Costs.class)
                        .or(JavaClass.Predicates.belongToAnyOf(Costs.class))
                        .as("costs"))
                .check(CLASSES);
    }

    @Test
    void solverKnowsNoCodesInTheModelEither() {
        noClasses()
                .that()
                .resideInAPackage("loomcase.solve..")
                .should()
                .dependOnClassesThat(JavaClass.Predicates.belongToAnyOf(loomcase.model.Watch.class)
                        .as("code watches"))
                .check(CLASSES);
    }

    @Test
    void argumentsAndScreensStayInFaces() {
        noClasses()
                .that()
                .resideOutsideOfPackage("loomcase.cli..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("picocli..")
                .check(CLASSES);
    }

    @Test
    void onlyThePackageThatNeedsALibraryKnowsIt() {
        keptTo("org.drools..", "loomcase.policy..", "loomcase.rules..");
        keptTo("org.kie..", "loomcase.policy..", "loomcase.rules..");
        keptTo(
                "com.fasterxml.jackson..",
                "loomcase.model.read..",
                "loomcase.journal..",
                "loomcase.drill..",
                "loomcase.web..",
                "loomcase.json..",
                "loomcase.cli..");
        keptTo("io.undertow..", "loomcase.web..");
        keptTo("org.xnio..", "loomcase.web..");
        keptTo("com.openhtmltopdf..", "loomcase.print..");
        keptTo("org.apache.pdfbox..", "loomcase.print..");
    }

    private static void keptTo(String library, String... packages) {
        noClasses()
                .that()
                .resideOutsideOfPackages(packages)
                .should()
                .dependOnClassesThat()
                .resideInAPackage(library)
                .check(CLASSES);
    }

    /** The libraries that set and serve pages are large; the main job must not wait for them. */
    @Test
    void rankingNeverLoadsWhatSetsOrServesPages() {
        noClasses()
                .that()
                .haveFullyQualifiedName("loomcase.cli.RankCommand")
                .should()
                .transitivelyDependOnClassesThat(resideInAnyPackage(
                        "loomcase.print..", "com.openhtmltopdf..", "loomcase.web..", "io.undertow.."))
                .check(CLASSES);
    }

    @Test
    void nothingBelowPrints() {
        noClasses()
                .that()
                .resideOutsideOfPackage("loomcase.cli..")
                // The rule compiler is a step of the build with a main method of its own.
                .and()
                .doNotHaveFullyQualifiedName("loomcase.policy.RuleCompiler")
                .should(accessField(System.class, "out").or(accessField(System.class, "err")))
                .orShould()
                .callMethod(Throwable.class, "printStackTrace")
                .check(CLASSES);
    }

    @Test
    void onlyMainEndsTheProgram() {
        noClasses()
                .that()
                .doNotHaveFullyQualifiedName("loomcase.cli.Main")
                .and()
                .doNotHaveFullyQualifiedName("loomcase.policy.RuleCompiler")
                .should()
                .callMethod(System.class, "exit", int.class)
                .check(CLASSES);
    }

    @Test
    void staticFieldsAreFinal() {
        fields().that()
                .areStatic()
                .and()
                .areDeclaredInClassesThat()
                .resideOutsideOfPackage("loomcase.rules..")
                .and(DescribedPredicate.describe(
                        "are written by a person", f -> !f.getModifiers().contains(JavaModifier.SYNTHETIC)))
                .should()
                .beFinal()
                .check(CLASSES);
    }

    @Test
    void sharedVariablesAreNotHiddenInFinalFields() {
        fields().that()
                .areStatic()
                .should()
                .notHaveRawType(DescribedPredicate.describe(
                        "that is made to be changed",
                        c -> c.isAssignableTo(java.util.concurrent.ConcurrentMap.class)
                                || c.isAssignableTo(ThreadLocal.class)
                                || c.isAssignableTo(java.util.HashMap.class)
                                || c.isAssignableTo(java.util.ArrayList.class)
                                || c.getPackageName().equals("java.util.concurrent.atomic")))
                .check(CLASSES);
    }

    @Test
    void publicMethodsNameNoCollectionClass() {
        methods()
                .that()
                .arePublic()
                .should()
                .notHaveRawReturnType(DescribedPredicate.describe(
                        "that names an implementation",
                        c -> c.getName().equals("java.util.ArrayList")
                                || c.getName().equals("java.util.HashMap")))
                .check(CLASSES);
    }

    @Test
    void kindsOfThingsAreSealed() {
        for (Class<?> kind : List.of(
                loomcase.model.Device.Nature.class,
                loomcase.model.Edit.class,
                loomcase.model.ControlUnit.PinFunction.class,
                loomcase.model.Watch.Measure.class,
                loomcase.faults.Hypothesis.Cause.class,
                loomcase.j1939.CodeReading.class,
                loomcase.model.read.Json.class)) assertEquals(true, kind.isSealed(), kind.getName());
    }

    @Test
    void vocabularyIsMadeOfValues() {
        classes()
                .that()
                .resideInAPackage("loomcase.model")
                .and()
                .areNotNestedClasses()
                .and()
                .areNotInterfaces()
                .and(DescribedPredicate.describe(
                        "are public", c -> c.getModifiers().contains(JavaModifier.PUBLIC)))
                .and(DescribedPredicate.describe("hold something", c -> c.getFields().stream()
                        .anyMatch(f -> !f.getModifiers().contains(JavaModifier.STATIC))))
                .and()
                .doNotHaveSimpleName("Layout")
                .should(com.tngtech.archunit.lang.conditions.ArchConditions.be(
                        DescribedPredicate.describe("records or enums", c -> c.isRecord() || c.isEnum())))
                .check(CLASSES);
    }
}
