package loomcase.policy;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.drools.model.Model;
import org.drools.modelcompiler.KieBaseBuilder;

/** Loads the classes that {@link RuleCompiler} made of the built-in rules. */
final class BuiltInRules {
    /** Package that every DRL file for codes declares. */
    static final String PACKAGE = "loomcase.rules.codes";

    /** Resource with the names of the classes to start from, one a line. */
    static final String MODELS = "/rules/models.txt";

    private BuiltInRules() {}

    static RuleBase load() {
        List<Model> models = new ArrayList<>();
        for (String name : modelNames()) {
            try {
                models.add((Model) Class.forName(name).getDeclaredConstructor().newInstance());
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException("built-in rules are damaged: cannot load " + name, e);
            }
        }
        return new RuleBase(KieBaseBuilder.createKieBaseFromModel(models));
    }

    private static List<String> modelNames() {
        try (InputStream in = BuiltInRules.class.getResourceAsStream(MODELS)) {
            if (in == null) {
                throw new IllegalStateException("built-in rules are missing; build with Maven, which compiles them");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
