package loomcase.policy;

import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.drools.drl.ast.descr.PackageDescr;
import org.drools.drl.ast.descr.RuleDescr;
import org.drools.drl.parser.DrlParser;
import org.drools.drl.parser.DroolsError;
import org.drools.drl.parser.DroolsParserException;

/** Reads the heads of a shop's rules: where each starts, and whether it has what every rule must have. */
final class DrlHeads {
    private DrlHeads() {}

    /**
     * Where each rule starts.
     *
     * @param texts DRL by file name
     * @throws PolicyProblem if a text is not DRL, is of no family, names a rule twice, or lacks a reason
     */
    static Map<String, ShopFolder.Place> of(Map<String, String> texts) {
        Map<String, ShopFolder.Place> heads = new TreeMap<>();
        texts.forEach((file, text) -> {
            PackageDescr parsed = parse(file, text);
            family(file, parsed);
            parsed.getRules().forEach(rule -> add(heads, file, rule));
        });
        return heads;
    }

    /**
     * The family that a text belongs to.
     *
     * @throws PolicyProblem if it is not DRL or of no family
     */
    static Family family(String file, String text) {
        return family(file, parse(file, text));
    }

    private static Family family(String file, PackageDescr parsed) {
        return Family.ofPackage(parsed.getName())
                .orElseThrow(() -> new PolicyProblem(file + " line 1: package is \"" + parsed.getName()
                        + "\"; allowed are "
                        + Arrays.stream(Family.values())
                                .map(family -> "\"package " + family.drlPackage() + "\"")
                                .collect(Collectors.joining(", "))));
    }

    private static void add(Map<String, ShopFolder.Place> heads, String file, RuleDescr rule) {
        ShopFolder.Place here = new ShopFolder.Place(file, rule.getLine());
        String start = file + " line " + here.line() + ": rule \"" + rule.getName() + "\"";
        if (rule.getAnnotation("Reason") == null) {
            throw new PolicyProblem(start + " gives no reason; add @Reason(\"...\") under its name");
        }
        ShopFolder.Place earlier = heads.putIfAbsent(rule.getName(), here);
        if (earlier != null) {
            throw new PolicyProblem(start + " is already in " + earlier.file() + " line " + earlier.line()
                    + "; allowed is one rule of a name");
        }
    }

    private static PackageDescr parse(String file, String text) {
        DrlParser parser = new DrlParser();
        try {
            PackageDescr parsed = parser.parse(false, text);
            if (!parser.hasErrors()) {
                return parsed;
            }
        } catch (DroolsParserException e) {
            throw new PolicyProblem(file + ": this is not a rule file: " + e.getMessage());
        }
        DroolsError first = parser.getErrors().get(0);
        throw new PolicyProblem(DrlComplaint.unreadable(file, first));
    }
}
