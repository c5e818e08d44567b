/**
 * Drill: an instructor plants a fault, a student finds it. The network is the engine.
 *
 * <p><b>In:</b> a circuit with what is solved about it ({@link loomcase.casework.Bench}), a named fault or a seed with a
 * difficulty, and what a student asks for. <b>Out:</b> a sealed drill file, the lines of a run with their outcomes, minutes
 * and money, a debrief beside the planner's play, a class summary; and, headless, the planner's play of any planted fault.
 *
 * <p><b>Method.</b> {@link loomcase.drill.Planter} chooses a {@link loomcase.drill.Truth}; {@link loomcase.drill.Engine}
 * solves the network with its edits for every question, puts the meter's load between the probes, adds the meter's own error
 * and cuts the digits that a display has. Random numbers come from SHA-256 of seed and label ({@code Dice}), so the same
 * seed gives the same drill and the same readings on any machine, and a run can be replayed from its lines: {@link
 * loomcase.drill.Run} is a pure function of drill and lines. {@link loomcase.drill.Workshop} refuses what cannot be done and
 * lets harmful tests do their harm ({@code Harms}). {@link loomcase.drill.Rating} says how hard a drill is. {@link
 * loomcase.drill.Solver} lets the planner play.
 *
 * <p><b>Files.</b> A drill file is JSON whose answer is sealed; {@code Vault} says what that is worth: it keeps the answer
 * from whoever opens the file, not from someone who takes the program apart. A run is a case file of {@link
 * loomcase.journal}: chained, safe against a kill, one writer at a time, and open to {@code rank} and {@code next} like any
 * case; what only a drill knows (hint, claim) is a note that starts with {@code drill:}.
 *
 * <p>What the engine shows is written down as confirmed where it is odd, such as battery voltage on a 5 V rail, so that a run
 * is sound as a case.
 *
 * <p><b>Fairness.</b> A fault has one place to name, and those that name it as well ({@code Planted.alike}): either of two
 * wires that touch, either cavity of a bridge. A claim names one place or two, and no sound one. A drawn seed is unknown
 * unless the instructor wants one, for whoever knows seed, circuit and difficulty can draw the drill for himself. A run of a
 * student who has ended one of the same drill before is marked and has no ratio; nor has a run that was not solved.
 *
 * <p><b>Limits.</b> The engine of a drill is the model itself: its parts have their nominal values, so a drill says nothing
 * of how well the model fits a real engine. Codes set by unplugging are taken as cleared by the technician. The meter never
 * errs grossly. The bench does not heal by itself: a fault that comes and goes is drawn anew for each line.
 *
 * <p><b>Must not know:</b> consoles and screens. <b>Start reading</b> at {@link loomcase.drill.Planter}, then {@link
 * loomcase.drill.Engine} and {@link loomcase.drill.RunFile}.
 */
package loomcase.drill;
