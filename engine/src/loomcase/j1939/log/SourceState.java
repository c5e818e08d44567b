package loomcase.j1939.log;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import loomcase.j1939.CodeReading;
import loomcase.j1939.ConversionMethod;
import loomcase.j1939.Dtc;
import loomcase.j1939.Lamps;
import loomcase.j1939.TroubleMessage;

/** What one sender said about its codes so far. */
final class SourceState {
    private static final int COUNT_BITS = 0x7F000000;

    private final int address;
    private final Optional<ConversionMethod> olderMethod;
    private final Map<Integer, Seen> codes = new HashMap<>();
    private Optional<Lamps> lamps = Optional.empty();
    /** Number of the last DM1, from 1. */
    private long messages;

    /** How many codes the whole log may still add; it bounds the memory where somebody floods the network. */
    static final class Budget {
        int codes = 20_000;
    }

    private static final class Seen {
        final CodeReading reading;
        int count = -1;
        int appearances;
        long lastMessage = -1;
        OptionalDouble first = OptionalDouble.empty();
        OptionalDouble last = OptionalDouble.empty();

        Seen(CodeReading reading) {
            this.reading = reading;
        }
    }

    SourceState(int address, Optional<ConversionMethod> olderMethod) {
        this.address = address;
        this.olderMethod = olderMethod;
    }

    void message(TroubleMessage.Kind kind, TroubleMessage message, Frame frame, Budget budget, Warnings warnings) {
        boolean active = kind == TroubleMessage.Kind.DM1;
        if (active) {
            lamps = Optional.of(message.lamps());
            messages++;
        }
        for (Dtc dtc : message.codes()) {
            Seen seen = seen(dtc, budget);
            if (seen == null) {
                warnings.note(Warning.Kind.TOO_MANY_CODES, frame);
                continue;
            }
            if (seen.first.isEmpty()) {
                seen.first = frame.seconds();
            }
            seen.last = frame.seconds();
            seen.count = Math.max(seen.count, dtc.count().orElse(-1));
            // The same code twice in one message is one appearance.
            if (active && seen.lastMessage != messages) {
                seen.appearances += seen.lastMessage == messages - 1 ? 0 : 1;
                seen.lastMessage = messages;
            }
        }
    }

    /** The record of a code, new ones while the budget lasts, else null; kept inside this class. */
    private Seen seen(Dtc sent, Budget budget) {
        // Once the layout is known, the same code in old and new layout is one code.
        Dtc dtc = sent.older() && olderMethod.isPresent()
                ? Dtc.of(sent.code(olderMethod.get()), OptionalInt.empty(), ConversionMethod.VERSION_4)
                : sent;
        int key = dtc.bits() & ~COUNT_BITS;
        Seen seen = codes.get(key);
        if (seen == null && budget.codes > 0) {
            budget.codes--;
            seen = new Seen(dtc.reading());
            codes.put(key, seen);
        }
        return seen;
    }

    SourceCodes result(String network) {
        List<CodeSeen> list = new ArrayList<>();
        for (Seen seen : codes.values()) {
            boolean active = messages > 0 && seen.lastMessage == messages;
            list.add(new CodeSeen(
                    seen.reading,
                    seen.count < 0 ? OptionalInt.empty() : OptionalInt.of(seen.count),
                    active ? CodeSeen.State.ACTIVE : CodeSeen.State.STORED,
                    seen.appearances,
                    seen.first,
                    seen.last));
        }
        list.sort(Comparator.comparing(CodeSeen::state)
                .thenComparing(seen -> seen.reading().codes().get(0))
                .thenComparing(seen -> seen.reading().toString()));
        return new SourceCodes(network, address, lamps, list);
    }
}
