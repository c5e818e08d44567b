package loomcase.policy;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.kie.api.io.ResourceType;
import org.kie.internal.builder.KnowledgeBuilder;
import org.kie.internal.builder.KnowledgeBuilderFactory;
import org.kie.internal.builder.KnowledgeBuilderResult;
import org.kie.internal.io.ResourceFactory;

/** Compiles a shop's rules at run time, which takes a second or so and is only paid by a shop that has rules. */
final class ShopCompiler {
    private ShopCompiler() {}

    /**
     * Compiles the files of one family one by one, so that a problem is told with the file it is in.
     *
     * @throws PolicyProblem naming the first line at fault
     */
    static RuleBase compile(ShopFolder shop, Family family) {
        KnowledgeBuilder builder = KnowledgeBuilderFactory.newKnowledgeBuilder();
        for (Map.Entry<String, String> file : shop.texts().get(family).entrySet()) {
            byte[] text = file.getValue().getBytes(StandardCharsets.UTF_8);
            builder.add(ResourceFactory.newByteArrayResource(text), ResourceType.DRL);
            if (builder.hasErrors()) {
                KnowledgeBuilderResult first = builder.getErrors().stream()
                        .min(DrlComplaint.ROOT_FIRST)
                        .orElseThrow();
                throw new PolicyProblem(DrlComplaint.sentence(file.getKey(), shop.heads(), family, first));
            }
        }
        return new RuleBase(builder.newKieBase());
    }
}
