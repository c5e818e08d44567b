package loomcase.policy;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.drools.model.Model;
import org.drools.modelcompiler.KieBaseBuilder;

/** Loads what {@link RuleCompiler} made of the built-in rules, family by family. */
final class BuiltInRules {
    private BuiltInRules() {}

    static RuleBase load(Family family) {
        List<Model> models = new ArrayList<>();
        for (String name : lines(family.models())) {
            try {
                models.add((Model) Class.forName(name).getDeclaredConstructor().newInstance());
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException("built-in rules are damaged: cannot load " + name, e);
            }
        }
        return new RuleBase(KieBaseBuilder.createKieBaseFromModel(models));
    }

    /** Names of a family's rules, in order, without loading them. */
    static Set<String> names(Family family) {
        return new TreeSet<>(lines(family.ruleNames()));
    }

    /** The family that has a built-in rule of this name. */
    static Optional<Family> familyOf(String rule) {
        return Arrays.stream(Family.values())
                .filter(family -> names(family).contains(rule))
                .findFirst();
    }

    private static List<String> lines(String resource) {
        try (InputStream in = BuiltInRules.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IllegalStateException("built-in rules are missing; build with Maven, which compiles them");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
