package loomcase.j1939;

/**
 * One trouble code: what is wrong with what, written {@code SPN/FMI}, as in {@code 110/3}.
 *
 * @param spn suspect parameter number, 0..{@value #MAX_SPN}
 * @param fmi failure mode identifier, 0..{@value #MAX_FMI}
 */
public record Code(int spn, int fmi) implements Comparable<Code> {
    /** Largest SPN: 19 bits, all set. */
    public static final int MAX_SPN = 0x7FFFF;
    /** Largest FMI: 5 bits, all set. */
    public static final int MAX_FMI = 31;

    public Code {
        if (spn < 0 || spn > MAX_SPN) {
            throw new IllegalArgumentException("SPN " + spn + " is outside 0.." + MAX_SPN);
        }
        if (fmi < 0 || fmi > MAX_FMI) {
            throw new IllegalArgumentException("FMI " + fmi + " is outside 0.." + MAX_FMI);
        }
    }

    // Written out: what Java makes for a record is linked at first use, which costs a short run milliseconds each.
    @Override
    public boolean equals(Object other) {
        return other instanceof Code c && spn == c.spn && fmi == c.fmi;
    }

    @Override
    public int hashCode() {
        return (MAX_FMI + 1) * spn + fmi;
    }

    /** By SPN, then by FMI. */
    @Override
    public int compareTo(Code other) {
        return spn != other.spn ? Integer.compare(spn, other.spn) : Integer.compare(fmi, other.fmi);
    }

    @Override
    public String toString() {
        return spn + "/" + fmi;
    }
}
