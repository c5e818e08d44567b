package loomcase.policy;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;

/**
 * The texts of a shop's rule folder, read and sorted into families, before they are compiled.
 *
 * @param texts DRL by family and file name, in name order
 * @param heads where each rule starts, by rule name
 * @param off names of the rules that are turned off
 */
record ShopFolder(Map<Family, Map<String, String>> texts, Map<String, Place> heads, Set<String> off) {
    private static final String OFF_FILE = "rules-off.txt";

    /** A line in one of the shop's files. */
    record Place(String file, int line) {}

    /**
     * Reads a folder.
     *
     * @throws PolicyProblem if it cannot be used; how rules read inside is only checked when they are compiled
     */
    static ShopFolder read(Path folder) {
        if (!Files.isDirectory(folder)) {
            throw new PolicyProblem(folder + ": this is no folder; allowed is a folder with .drl files");
        }
        Map<String, String> texts = new LinkedHashMap<>();
        for (Path file : drlFiles(folder)) {
            texts.put(file.getFileName().toString(), text(file));
        }
        Path off = folder.resolve(OFF_FILE);
        Map<String, Integer> offLines = Files.exists(off) ? namesTurnedOff(text(off)) : Map.of();
        if (texts.isEmpty() && offLines.isEmpty()) {
            throw new PolicyProblem(folder + ": no .drl file and no rule name in " + OFF_FILE
                    + "; put one there or leave the option out");
        }
        Map<String, Place> heads = DrlHeads.of(texts);
        Map<Family, Map<String, String>> sorted = byFamily(texts);
        refuseBorrowedNames(heads, sorted);
        refuseUnknownNames(offLines, heads.keySet());
        return new ShopFolder(sorted, heads, new TreeSet<>(offLines.keySet()));
    }

    /** Start of a message about a rule: its file and line. */
    String at(String rule) {
        Place head = heads.get(rule);
        return head.file() + " line " + head.line() + ": rule \"" + rule + "\": ";
    }

    /**
     * Start of a message about a condition. The rule engine does not say whose it was, but the word that it stumbled over
     * stands in one of the files.
     *
     * @param message that quotes the word
     */
    String atCondition(Family family, String message) {
        String[] parts = message.split("\"");
        String word = parts.length > 1 ? "\"" + parts[1] + "\"" : message;
        for (Map.Entry<String, String> file : texts.get(family).entrySet()) {
            int number = 0;
            for (String line : file.getValue().lines().toList()) {
                number++;
                if (line.contains(word)) {
                    return file.getKey() + " line " + number + ": a condition cannot be checked: ";
                }
            }
        }
        return "shop rules: a condition cannot be checked: ";
    }

    private static Map<Family, Map<String, String>> byFamily(Map<String, String> texts) {
        Map<Family, Map<String, String>> sorted = new EnumMap<>(Family.class);
        for (Family family : Family.values()) {
            sorted.put(family, new LinkedHashMap<>());
        }
        texts.forEach((file, text) -> sorted.get(DrlHeads.family(file, text)).put(file, text));
        return sorted;
    }

    /** A rule replaces one of its own family; the name of another family's rule would turn that off unseen. */
    private static void refuseBorrowedNames(Map<String, Place> heads, Map<Family, Map<String, String>> texts) {
        heads.forEach((rule, head) -> BuiltInRules.familyOf(rule)
                .filter(family -> !texts.get(family).containsKey(head.file()))
                .ifPresent(family -> {
                    throw new PolicyProblem(head.file() + " line " + head.line() + ": rule \"" + rule
                            + "\" has the name of a built-in rule of package " + family.drlPackage()
                            + "; move it to a file of that package or give it another name");
                }));
    }

    private static void refuseUnknownNames(Map<String, Integer> offLines, Set<String> shopNames) {
        Set<String> known = new TreeSet<>(shopNames);
        for (Family family : Family.values()) {
            known.addAll(BuiltInRules.names(family));
        }
        offLines.forEach((name, line) -> {
            if (!known.contains(name)) {
                String nearest = known.stream()
                        .min(Comparator.comparingInt(rule -> distance(rule, name)))
                        .orElseThrow();
                throw new PolicyProblem(OFF_FILE + " line " + line + ": no rule is named \"" + name
                        + "\"; the nearest is \"" + nearest + "\"");
            }
        });
    }

    private static List<Path> drlFiles(Path folder) {
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(file -> file.toString().endsWith(".drl"))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new PolicyProblem(folder + ": this folder cannot be read");
        }
    }

    private static String text(Path file) {
        try {
            return Files.readString(file);
        } catch (CharacterCodingException e) {
            throw new PolicyProblem(file.getFileName() + ": this is not UTF-8 text; save it as UTF-8");
        } catch (IOException e) {
            throw new PolicyProblem(file.getFileName() + ": this file cannot be read");
        }
    }

    /** One name a line; blank lines and lines that start with # do not count. */
    private static Map<String, Integer> namesTurnedOff(String text) {
        Map<String, Integer> names = new TreeMap<>();
        int number = 0;
        for (String line : text.lines().toList()) {
            number++;
            if (!line.isBlank() && !line.strip().startsWith("#")) {
                names.put(line.strip(), number);
            }
        }
        return names;
    }

    /** Levenshtein distance: how many letters to change, add or drop. */
    private static int distance(String a, String b) {
        int[] row = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            row[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int change = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(change, 1 + Math.min(row[j], row[j - 1]));
            }
        }
        return row[b.length()];
    }
}
