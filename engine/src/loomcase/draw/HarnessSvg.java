package loomcase.draw;

import loomcase.model.*;

public final class HarnessSvg {
    public static String draw(Circuit c, Layout l, Suspicion m) {
        return "";
    }
}
