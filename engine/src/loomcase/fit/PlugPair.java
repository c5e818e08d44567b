package loomcase.fit;

import java.util.List;

/**
 * A plug of the old harness with its partner in the new one.
 *
 * @param between true when both halves of an inline pair belong to the harness, so that nothing outside it meets this plug
 */
record PlugPair(Plug old, Plug neu, Pairing.Pair pair, LeadMatch leads, boolean between) {

    static List<PlugPair> of(Matching m) {
        return m.plugs().values().stream()
                .map(p -> {
                    Plug old = m.old().plugs().get(p.old());
                    Plug neu = m.neu().plugs().get(p.neu());
                    boolean between = neu.inline().isPresent()
                            && old.inline()
                                    .map(i -> m.plugs().containsKey(i)
                                            && m.plugs()
                                                    .get(i)
                                                    .neu()
                                                    .equals(neu.inline().get()))
                                    .orElse(false);
                    return new PlugPair(old, neu, p, LeadMatch.of(old, neu), between);
                })
                .toList();
    }

    /** How messages call the pair. */
    String where() {
        return old.id().equals(neu.id()) ? old.id() : old.id() + " (new " + neu.id() + ")";
    }

    /** Ring terminals sit on studs and have no shell. */
    boolean ring() {
        return old.terminal().startsWith("ring");
    }
}
