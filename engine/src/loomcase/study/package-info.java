/**
 * Many drawn cases whose truth is known, to see how often and how surely the engine is right.
 *
 * <p>In comes a circuit; out come scores. A case is planted ({@code CaseDraw}) in a world that differs from what the engine
 * assumes ({@code World}): parts off by their tolerance, limits of the control unit off nominal, codes missed and strayed at
 * other rates, faults drawn with and against the priors. Its voltages come from ngspice or from our solver without its
 * shortcuts ({@code Truth}), the codes from drawn limits ({@code ControlUnitLogic}); the engine sees the codes only.
 *
 * <p>It must not know how the answer is shown. Start at {@code Study}.
 */
package loomcase.study;
