package loomcase.model.read;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import loomcase.InputProblem;

/**
 * One JSON object being read: hands out typed fields and complains with file, line and field name.
 *
 * <p>Every field asked for counts as known; {@link #done()} then refuses the rest, so a misspelt key cannot pass.
 */
public final class Cursor {
    private static final int MOST_LETTERS = 500;
    private static final Pattern NAME = Pattern.compile("[^\\s/@~:.,;'\"]+");

    private final Path file;
    private final String where;
    private final Json.Obj object;
    private final Set<String> known = new HashSet<>();

    private Cursor(Path file, String where, Json.Obj object) {
        this.file = file;
        this.where = where;
        this.object = object;
    }

    /** The whole file as one object. */
    public static Cursor of(Path file, Json json) {
        if (json instanceof Json.Obj o) return new Cursor(file, "", o);
        throw new InputProblem(file + ": line " + json.line() + ": a JSON object {…} was expected");
    }

    /** A complaint about a field of this object. */
    public InputProblem problem(String field, String what) {
        Json value = object.fields().get(field);
        int line = value == null ? object.line() : value.line();
        String place = where.isEmpty() ? field : where + "." + field;
        return problem(line, place, what);
    }

    private InputProblem problem(int line, String place, String what) {
        return new InputProblem(file + ": line " + line + ": " + oneLine(place) + ": " + oneLine(what));
    }

    /** Text fit for a message: control characters shown as {@code ?}, cut when very long. */
    public static String oneLine(String text) {
        String line = text.replaceAll("[\\p{Cntrl}\u2028\u2029]", "?");
        return line.length() <= MOST_LETTERS ? line : line.substring(0, MOST_LETTERS) + " …";
    }

    public boolean has(String field) {
        known.add(field);
        return object.fields().containsKey(field);
    }

    private Json need(String field) {
        known.add(field);
        Json value = object.fields().get(field);
        if (value != null) return value;
        for (String given : object.fields().keySet())
            if (!known.contains(given) && near(given, field))
                throw problem(given, "is not a known key; did you mean '" + field + "'?");
        throw problem(field, "is missing");
    }

    public String text(String field) {
        if (need(field) instanceof Json.Text t) return t.value();
        throw problem(field, "must be a text in quotes");
    }

    public String text(String field, String otherwise) {
        return has(field) ? text(field) : otherwise;
    }

    /** A text that is not blank. */
    public String id(String field) {
        String text = text(field);
        if (text.isBlank()) throw problem(field, "must not be empty");
        return text;
    }

    /** A name that other fields may refer to; the signs that make up longer names are not allowed in it. */
    public String name(String field) {
        String text = id(field);
        if (!isName(text)) throw problem(field, "'" + text + "' is no name; leave out spaces and / @ ~ : . , ; ' \"");
        return text;
    }

    static boolean isName(String text) {
        return NAME.matcher(text).matches();
    }

    public double number(String field, double least, double most) {
        if (!(need(field) instanceof Json.Num n)) throw problem(field, "must be a number");
        double value = Double.parseDouble(n.value());
        if (!(value >= least && value <= most))
            throw problem(field, n.value() + " is not within " + plain(least) + " to " + plain(most));
        return value;
    }

    public double number(String field, double least, double most, double otherwise) {
        return has(field) ? number(field, least, most) : otherwise;
    }

    /** A number with the digits that the file has. */
    public BigDecimal decimal(String field, double least, double most) {
        number(field, least, most);
        return new BigDecimal(((Json.Num) need(field)).value());
    }

    /** True when the field is there and is a text. */
    public boolean isText(String field) {
        return has(field) && need(field) instanceof Json.Text;
    }

    public int whole(String field, int least, int most) {
        double value = number(field, least, most);
        if (value != Math.rint(value)) throw problem(field, value + " is not a whole number");
        return (int) value;
    }

    public boolean flag(String field, boolean otherwise) {
        if (!has(field)) return otherwise;
        if (need(field) instanceof Json.Word w && !w.value().equals("null")) return Boolean.parseBoolean(w.value());
        throw problem(field, "must be true or false");
    }

    /** A word out of a fixed list. */
    public <E extends Enum<E>> E word(String field, Class<E> kind) {
        String text = text(field);
        List<String> allowed = new ArrayList<>();
        for (E each : kind.getEnumConstants()) {
            String word = each.name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
            if (word.equals(text)) return each;
            allowed.add(word);
        }
        throw problem(field, "'" + text + "' is not one of " + String.join(", ", allowed));
    }

    public List<String> texts(String field) {
        List<String> out = new ArrayList<>();
        if (!has(field)) return out;
        if (!(need(field) instanceof Json.Arr array)) throw problem(field, "must be a list [...] of texts");
        for (Json item : array.items()) {
            if (!(item instanceof Json.Text t)) throw problem(field, "must hold only texts in quotes");
            out.add(t.value());
        }
        return out;
    }

    /** A list of at least one text. */
    public List<String> someTexts(String field) {
        need(field);
        List<String> out = texts(field);
        if (out.isEmpty()) throw problem(field, "needs at least one entry");
        return out;
    }

    /** A list of objects; a missing field is an empty list. */
    public List<Cursor> objects(String field) {
        List<Cursor> out = new ArrayList<>();
        if (!has(field)) return out;
        if (!(need(field) instanceof Json.Arr array)) throw problem(field, "must be a list [...] of objects");
        int i = 0;
        for (Json item : array.items()) {
            String name = field + "[" + i++ + "]";
            if (!(item instanceof Json.Obj o))
                throw problem(item.line(), where.isEmpty() ? name : where + "." + name, "must be an object {…}");
            if (o.fields().get("id") instanceof Json.Text id) name = field + " " + id.value();
            else if (o.fields().get("cavity") instanceof Json.Text cavity) name = field + " " + cavity.value();
            out.add(new Cursor(file, where.isEmpty() ? name : where + "." + name, o));
        }
        return out;
    }

    /** A list of at least one object. */
    public List<Cursor> some(String field) {
        need(field);
        List<Cursor> out = objects(field);
        if (out.isEmpty()) throw problem(field, "needs at least one entry");
        return out;
    }

    public Cursor object(String field) {
        if (need(field) instanceof Json.Obj o)
            return new Cursor(file, where.isEmpty() ? field : where + "." + field, o);
        throw problem(field, "must be an object {…}");
    }

    /** The field as an object when it is there and is one. */
    public Optional<Cursor> maybeObject(String field) {
        return has(field) && object.fields().get(field) instanceof Json.Obj
                ? Optional.of(object(field))
                : Optional.empty();
    }

    /** All fields of this object in file order; counts them all as known. */
    public Map<String, Json> all() {
        known.addAll(object.fields().keySet());
        return object.fields();
    }

    /** Refuses any field that nobody asked for. */
    public void done() {
        for (String field : object.fields().keySet()) {
            if (known.contains(field)) continue;
            String near = known.stream()
                    .filter(k -> near(k, field))
                    .min(Comparator.comparingInt((String k) -> Spelling.distance(k, field))
                            .thenComparing(Comparator.naturalOrder()))
                    .map(k -> "; did you mean '" + k + "'?")
                    .orElse("; allowed here: "
                            + String.join(", ", known.stream().sorted().toList()));
            throw problem(field, "is not a known key" + near);
        }
    }

    /** True when a slip of the finger turns one into the other; in a short word two slips leave nothing of it. */
    private static boolean near(String a, String b) {
        int slips = Spelling.distance(a, b);
        return slips <= 2 && slips < Math.max(a.length(), b.length()) - 1;
    }

    private static String plain(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e9
                ? Long.toString((long) value)
                : Double.toString(value);
    }
}
