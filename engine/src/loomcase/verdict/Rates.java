package loomcase.verdict;

/**
 * What an hour costs, in the circuit file's currency.
 *
 * @param labourPerHour what the shop asks
 * @param downtimePerHour what the owner loses while the machine stands; 0 where not known
 */
public record Rates(double labourPerHour, double downtimePerHour) {
    public Rates {
        if (!(labourPerHour >= 0 && downtimePerHour >= 0))
            throw new IllegalArgumentException("rates " + labourPerHour + " and " + downtimePerHour + " an hour");
    }

    /** Labour for some minutes. */
    double labour(double minutes) {
        return minutes / 60 * labourPerHour;
    }

    /** Standing still for some minutes. */
    double downtime(double minutes) {
        return minutes / 60 * downtimePerHour;
    }
}
