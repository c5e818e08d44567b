package loomcase.job;

import java.util.List;

/**
 * A job in the order of work.
 *
 * @param work what is done
 * @param alreadyOpen labels of access steps that are open already
 * @param opening what comes off, in order
 * @param unplugging plugs to take apart, in order
 * @param working the work itself: for a section or harness how it is laid and plugged; for a repair where it is
 * @param closing the reverse of opening, those already open included, with what each step calls for
 * @param accessMinutes access still to be paid, putting back included: the planner's figure
 */
public record JobSheet(
        Work work,
        List<String> alreadyOpen,
        List<Task> opening,
        List<Task> unplugging,
        List<Task> working,
        List<Task> closing,
        double accessMinutes) {
    public JobSheet {
        alreadyOpen = List.copyOf(alreadyOpen);
        opening = List.copyOf(opening);
        unplugging = List.copyOf(unplugging);
        working = List.copyOf(working);
        closing = List.copyOf(closing);
    }
}
