package loomcase.print;

import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;

/**
 * A sheet or packet to print, in the words of one language.
 *
 * @param title what it is, such as "Job sheet"; never empty
 * @param subtitle what it is about, one line, may be empty
 * @param language language of all its text; take it from {@link Wording#language()}
 * @param date the date it bears; files carry no other time, so that the same document gives the same bytes
 * @param facts what is known of the case, shown in a box below the title
 * @param sections its parts in order
 * @param footer a short line at the foot of every page, may be empty
 */
public record Document(
        String title,
        String subtitle,
        Locale language,
        LocalDate date,
        List<Block.Detail> facts,
        List<Section> sections,
        String footer) {

    /**
     * @throws IllegalArgumentException when the title is empty, when there are two lists of evidence, or when a phrase
     *     cites a line that the list of evidence does not have
     */
    public Document {
        facts = List.copyOf(facts);
        sections = List.copyOf(sections);
        if (title.isBlank()) throw new IllegalArgumentException("a document without a title");
        check(facts, sections);
    }

    private static void check(List<Block.Detail> facts, List<Section> sections) {
        List<Block.Evidence> lists = evidence(sections).toList();
        if (lists.size() > 1) throw new IllegalArgumentException("a document with two lists of evidence");
        if (lists.isEmpty()) return;
        Set<Integer> known = numbers(lists.get(0));
        Stream<Phrase> phrases = Stream.concat(
                facts.stream().map(Block.Detail::value),
                sections.stream().flatMap(s -> s.blocks().stream()).flatMap(Block::phrases));
        phrases.forEach(p -> p.lines().forEach(line -> {
            if (!known.contains(line))
                throw new IllegalArgumentException("line " + line + " is cited but is no evidence line: " + p.text());
        }));
    }

    private static Stream<Block.Evidence> evidence(List<Section> sections) {
        return sections.stream()
                .flatMap(s -> s.blocks().stream())
                .filter(Block.Evidence.class::isInstance)
                .map(Block.Evidence.class::cast);
    }

    private static Set<Integer> numbers(Block.Evidence list) {
        Set<Integer> numbers = new HashSet<>();
        list.lines().forEach(line -> numbers.add(line.number()));
        return numbers;
    }

    /** Numbers of the evidence lines that have an anchor; empty when there is no list of evidence. */
    Set<Integer> anchors() {
        return evidence(sections).findFirst().map(Document::numbers).orElse(Set.of());
    }
}
