package loomcase.model;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;

/**
 * Prices of work and parts, all in one currency that is only a label.
 *
 * @param currency the label
 * @param labourPerHour labour rate
 * @param harnessPart price of a whole harness
 * @param harnessMinutes labour to fit one
 * @param sections ready-made sections
 * @param repairParts price of small parts by name: {@code terminal}, {@code pigtail}, {@code splice}, {@code sealing}
 * @param deviceParts price by device id
 * @param controlUnitPart price of a control unit
 * @param downtimePerHour what an hour of standing still costs the owner; 0 where not known
 */
public record Costs(
        String currency,
        BigDecimal labourPerHour,
        BigDecimal harnessPart,
        double harnessMinutes,
        List<Section> sections,
        Map<String, BigDecimal> repairParts,
        Map<String, BigDecimal> deviceParts,
        BigDecimal controlUnitPart,
        BigDecimal downtimePerHour) {

    /** Prices without downtime. */
    public Costs(
            String currency,
            BigDecimal labourPerHour,
            BigDecimal harnessPart,
            double harnessMinutes,
            List<Section> sections,
            Map<String, BigDecimal> repairParts,
            Map<String, BigDecimal> deviceParts,
            BigDecimal controlUnitPart) {
        this(
                currency,
                labourPerHour,
                harnessPart,
                harnessMinutes,
                sections,
                repairParts,
                deviceParts,
                controlUnitPart,
                BigDecimal.ZERO);
    }

    /** Minutes of work and standing still that cost as much as the part which is fitted at a place; 0 where these are free. */
    public double partMinutes(PlaceId place) {
        BigDecimal part =
                switch (place.kind()) {
                    case DEVICE -> deviceParts.getOrDefault(place.id(), BigDecimal.ZERO);
                    case CONTROL_UNIT -> controlUnitPart;
                    case BRANCH, CAVITY, CONNECTOR, ENGINE, FUSE, GROUND, SPLICE, WIRE -> BigDecimal.ZERO;
                };
        double hour = labourPerHour.add(downtimePerHour).doubleValue();
        return hour > 0 ? part.doubleValue() / hour * 60 : 0;
    }

    /**
     * A part of the harness that can be bought by itself.
     *
     * @param id the id in the circuit file
     * @param branches branches it covers
     * @param part its price
     * @param minutes labour to fit it
     */
    public record Section(String id, List<String> branches, BigDecimal part, double minutes) {
        public Section {
            branches = List.copyOf(branches);
        }
    }

    public Costs {
        sections = List.copyOf(sections);
        repairParts = Ordered.copy(repairParts);
        deviceParts = Ordered.copy(deviceParts);
    }
}
