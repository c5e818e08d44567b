package loomcase.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import loomcase.InputProblem;
import loomcase.NaturalOrder;
import loomcase.casework.CaseFile;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.drill.DrillFile;
import loomcase.model.Circuit;

/** The folder of cases: names to files, never outside it. */
final class CaseFolder {
    private static final Pattern NAME = Pattern.compile("[A-Za-z0-9][A-Za-z0-9_-]{0,59}");
    private static final String CIRCUIT_ENDING = ".json";
    private static final String DRILL_ENDING = DrillFile.ENDING;

    private final Path folder;
    private final List<Path> offered;
    private final Casework casework;

    /**
     * @param offered circuit files for new cases, besides those in the folder
     * @throws InputProblem when the folder is none
     */
    CaseFolder(Path folder, List<Path> offered, Casework casework) {
        if (!Files.isDirectory(folder)) throw new InputProblem(folder + ": is not a folder");
        try {
            this.folder = folder.toRealPath();
        } catch (IOException e) {
            throw new InputProblem(folder + ": cannot be read: " + e.getMessage(), e);
        }
        this.offered = List.copyOf(offered);
        this.casework = casework;
    }

    /** Messages name files from inside the folder; where it lies is nobody's business on the page. */
    String shown(String message) {
        return message.replace(folder + folder.getFileSystem().getSeparator(), "");
    }

    /** Names of all cases, in order. */
    List<String> names() {
        return names(CaseFile.ENDING);
    }

    /** Names of all files of one kind, in order. */
    List<String> names(String ending) {
        List<String> out = new ArrayList<>();
        for (Path p : files(ending)) {
            String name = withoutEnding(p, ending);
            if (NAME.matcher(name).matches()) out.add(name);
        }
        out.sort(NaturalOrder.OF_NAMES);
        return out;
    }

    private List<Path> files(String ending) {
        try (Stream<Path> all = Files.list(folder)) {
            return all.filter(p -> p.getFileName().toString().endsWith(ending))
                    .filter(p -> Files.isRegularFile(p, LinkOption.NOFOLLOW_LINKS))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String withoutEnding(Path file, String ending) {
        String name = file.getFileName().toString();
        return name.substring(0, name.length() - ending.length());
    }

    /**
     * A case as it stands.
     *
     * @throws Refusal when there is none of this name
     * @throws InputProblem when it cannot be read
     */
    OpenCase open(String name) {
        return casework.open(file(name));
    }

    /** The file of a case that is there; a link is not followed, for it may lead out of the folder. */
    Path file(String name) {
        return file(name, CaseFile.ENDING);
    }

    /** The same for another kind of file. */
    Path file(String name, String ending) {
        Path file = newFile(name, ending);
        if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) throw Refusal.notFound("'" + name + "'");
        return file;
    }

    /** Where a case of this name belongs. */
    Path newFile(String name) {
        return newFile(name, CaseFile.ENDING);
    }

    /** The same for another kind of file. */
    Path newFile(String name, String ending) {
        if (!NAME.matcher(name).matches())
            throw new Refusal(
                    Refusal.BAD_REQUEST,
                    "name: a name has 1 to 60 letters a to z, digits, - and _, and starts with a letter or digit");
        return folder.resolve(name + ending);
    }

    /** The circuit of a file. */
    Circuit circuit(Path file) {
        return casework.circuit(file).circuit();
    }

    /** A name for a log or picture of a case that no file has yet. */
    Path newBeside(String name, String ending) {
        String stem = withoutEnding(newFile(name), CaseFile.ENDING);
        for (int n = 1; ; n++) {
            Path file = folder.resolve(stem + "-" + n + ending);
            if (!Files.exists(file, LinkOption.NOFOLLOW_LINKS)) return file;
        }
    }

    /** Circuit files for new cases by the name shown: those offered, those in the folder, those that its cases name. */
    Map<String, Path> circuits() {
        Map<String, Path> out = new LinkedHashMap<>();
        offered.forEach(p -> out.putIfAbsent(p.getFileName().toString(), p));
        Map<String, Path> here = new TreeMap<>();
        for (Path p : files(CIRCUIT_ENDING))
            if (!p.getFileName().toString().endsWith(DRILL_ENDING))
                here.put(p.getFileName().toString(), p);
        for (String name : names()) {
            try {
                OpenCase c = open(name);
                Path p = CaseFile.circuitOf(c.file(), c.journal()).normalize();
                here.putIfAbsent(p.getFileName().toString(), p);
            } catch (InputProblem e) {
                continue; // the list of cases says what is wrong with it
            }
        }
        here.forEach(out::putIfAbsent);
        return out;
    }
}
