package loomcase.fit;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.fit.Difference.Severity;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.read.CavityList;
import loomcase.model.read.WireList;

/**
 * Entry of this stage: whether a new harness fits in place of an old one.
 *
 * <pre>{@code
 * FitResult r = Fit.compare(oldCircuit, newCircuit);
 * }</pre>
 *
 * <p>Pure: the same two harnesses give the same result, and ids that differ make no difference.
 */
public final class Fit {
    private final Matching match;
    private final Circuit old;
    private final Findings findings = new Findings();
    private final List<Transfer> transfers = new ArrayList<>();

    private Fit(Matching match) {
        this.match = match;
        this.old = match.old().circuit().orElseThrow();
    }

    /** A whole circuit in place of another. */
    public static FitResult compare(Circuit old, Circuit neu) {
        return new Fit(Matching.of(old, neu)).run();
    }

    /**
     * A part of which only a cavity list is known.
     *
     * @param name how the part is called
     */
    public static FitResult compare(Circuit old, String name, CavityList list) {
        return new Fit(Matching.of(old, Harness.of(name, list, old))).run();
    }

    /**
     * A part of which only a wire list is known.
     *
     * @param name how the part is called
     */
    public static FitResult compare(Circuit old, String name, WireList list) {
        return new Fit(Matching.of(old, Harness.of(name, list, old))).run();
    }

    private FitResult run() {
        PartRules parts = new PartRules(match, findings);
        parts.plugs();
        List<PlugPair> pairs = PlugPair.of(match);
        Layout layout = new Layout(old);
        Set<String> seen = new HashSet<>();
        for (PlugPair p : pairs) {
            plug(p);
            new WireRules(p, old, layout, seen, findings).apply();
        }
        match.neu()
                .circuit()
                .ifPresentOrElse(
                        neu -> {
                            parts.joints(old, neu);
                            parts.termination(old, neu);
                            ReachRules.apply(pairs, old, neu, findings);
                            BranchRules.apply(pairs, old, neu, findings);
                        },
                        () -> listOnly(pairs));
        return result(pairs);
    }

    private void plug(PlugPair p) {
        ShellRules.Outcome shell = ShellRules.apply(p, findings);
        boolean moved = CavityRules.apply(p, shell.obstacle().isPresent(), findings);
        boolean swap = shell.otherShell() && shell.obstacle().isEmpty();
        if (moved || swap) transfers.add(Transfer.plan(p, swap, injectors()));
    }

    private boolean injectors() {
        return old.devices().values().stream().anyMatch(d -> d.nature().word().equals("injector"));
    }

    private void listOnly(List<PlugPair> pairs) {
        boolean lengths = pairs.stream()
                .flatMap(p -> p.leads().cavities().values().stream()
                        .map(n -> p.neu().leads().get(n)))
                .anyMatch(l -> l.givenMetres().isPresent());
        findings.notKnown("reach", lengths ? "wires without a stated length" : "all branches", true);
        findings.notKnown("clips and brackets", "all branches", true);
        findings.notKnown("splices and what is joined inside the loom", "all", true);
        if (!old.fuses().isEmpty()) findings.notKnown("fuses", "all", false);
    }

    private FitResult result(List<PlugPair> pairs) {
        List<Difference> all = findings.differences();
        boolean blocks = all.stream().anyMatch(d -> d.severity() == Severity.BLOCKS);
        FitResult.Verdict verdict = blocks
                ? FitResult.Verdict.DOES_NOT_FIT
                : transfers.isEmpty() ? FitResult.Verdict.FITS : FitResult.Verdict.FITS_WITH_TRANSFER;
        Map<String, String> cavities = new LinkedHashMap<>();
        List<FitResult.PlugMatch> plugs = new ArrayList<>();
        for (PlugPair p : pairs) {
            plugs.add(match(p));
            p.leads()
                    .cavities()
                    .forEach((c, n) ->
                            cavities.put(p.old().id() + "/" + c, p.neu().id() + "/" + n));
        }
        return new FitResult(
                old,
                match.neu().name(),
                match.neu().circuit(),
                verdict,
                all,
                findings.notKnown(),
                plugs,
                transfers,
                cavities);
    }

    private static FitResult.PlugMatch match(PlugPair p) {
        return new FitResult.PlugMatch(
                face(p.old()),
                face(p.neu()),
                p.pair().sure(),
                p.leads().cavities(),
                p.leads().extra());
    }

    private static FitResult.Face face(Plug p) {
        Map<String, String> carries = new LinkedHashMap<>();
        p.leads().forEach((c, lead) -> carries.put(c, lead.words()));
        return new FitResult.Face(p.id(), p.label(), p.rows(), p.keying(), p.colour(), p.latch(), carries);
    }
}
