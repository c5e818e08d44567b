package loomcase.policy;

import java.util.List;
import java.util.Set;
import org.kie.api.KieBase;
import org.kie.api.event.rule.AfterMatchFiredEvent;
import org.kie.api.event.rule.BeforeMatchFiredEvent;
import org.kie.api.event.rule.DefaultAgendaEventListener;
import org.kie.api.runtime.KieSession;

/** Compiled rules, ready to run over facts. Each run has its own session, so one object serves many threads. */
final class RuleBase {
    private final KieBase rules;

    RuleBase(KieBase rules) {
        this.rules = rules;
    }

    /** Fires every rule but those named {@code off}, once for each match; {@code conclusions} gathers what they say. */
    void run(List<?> facts, Set<String> off, Speech conclusions) {
        KieSession session = rules.newKieSession();
        try {
            if (speaks()) {
                session.setGlobal("conclude", conclusions);
            }
            session.addEventListener(new Speaker(conclusions));
            facts.forEach(session::insert);
            session.fireAllRules(match -> !off.contains(match.getRule().getName()));
        } finally {
            session.dispose();
        }
    }

    /** Rules that conclude nothing, or no rules at all, need not declare the global. */
    private boolean speaks() {
        return rules.getKiePackages().stream()
                .flatMap(group -> group.getGlobalVariables().stream())
                .anyMatch(global -> global.getName().equals("conclude"));
    }

    /** Tells the conclusions whose consequence is running. */
    private static final class Speaker extends DefaultAgendaEventListener {
        private final Speech conclusions;

        Speaker(Speech conclusions) {
            this.conclusions = conclusions;
        }

        @Override
        public void beforeMatchFired(BeforeMatchFiredEvent event) {
            var rule = event.getMatch().getRule();
            conclusions.speaks(rule.getName(), rule.getMetaData());
        }

        @Override
        public void afterMatchFired(AfterMatchFiredEvent event) {
            conclusions.nobodySpeaks();
        }
    }
}
