package loomcase.draw;

import loomcase.model.Circuit;

/** Sentences about a picture for those who cannot see it. */
final class Words {
    private Words() {}

    /** What the picture shows, suspects in order. */
    static String describe(Circuit c, Suspicion suspicion) {
        StringBuilder out =
                new StringBuilder("Wiring harness drawn as a tree from the control unit outward, not to scale: ");
        out.append(count(c.branches().size(), "branch", "branches")).append(", ");
        out.append(count(c.connectors().size(), "plug", "plugs")).append(", ");
        out.append(count(c.devices().size(), "device", "devices")).append(", ");
        out.append(count(c.splices().size(), "splice", "splices")).append('.');
        if (suspicion.marks().isEmpty())
            return out.append(" No place is marked.").toString();
        out.append(" Suspected places in order:");
        for (Suspicion.Mark m : suspicion.marks())
            out.append(' ')
                    .append(m.rank())
                    .append(": ")
                    .append(m.place())
                    .append(", ")
                    .append(m.label())
                    .append(", ")
                    .append(Suspicion.percent(suspicion.of(m.place())))
                    .append(';');
        out.setCharAt(out.length() - 1, '.');
        return out.toString();
    }

    private static String count(int n, String one, String many) {
        return n + " " + (n == 1 ? one : many);
    }
}
