/**
 * From what a technician has in hand, typed codes or a log, to evidence about one circuit.
 *
 * <p><b>In:</b> {@code j1939} vocabulary and logs, a circuit. <b>Out:</b> {@link loomcase.intake.Intake}, the entry of this
 * stage: evidence, with every assumption made on the way as a sentence. It picks the control unit's own codes by source
 * address, resolves codes in older SPN layouts where the circuit leaves one choice, and takes the operating points from
 * engine speed when nobody gives them. Of a case {@link loomcase.intake.CaseIntake} takes the codes read last, the work before
 * them and the tests that still hold. <b>Must not know:</b> probabilities.
 */
package loomcase.intake;
