package loomcase.job;

import java.util.List;
import loomcase.model.PlaceId;

/** What is to be done. */
public sealed interface Work {
    /** In plain words. */
    String words();

    /**
     * A repair where the harness stays in.
     *
     * @param places where; at least one
     */
    record Repair(List<PlaceId> places) implements Work {
        public Repair {
            places = List.copyOf(places);
            if (places.isEmpty()) throw new IllegalArgumentException("a repair needs a place");
        }

        @Override
        public String words() {
            return "repair at "
                    + String.join(", ", places.stream().map(PlaceId::toString).toList());
        }
    }

    /**
     * A ready-made section is replaced.
     *
     * @param id the section's id in the circuit's costs
     */
    record Section(String id) implements Work {
        @Override
        public String words() {
            return "replace section " + id;
        }
    }

    /** The whole harness is replaced. */
    record Harness() implements Work {
        @Override
        public String words() {
            return "replace the whole harness";
        }
    }
}
