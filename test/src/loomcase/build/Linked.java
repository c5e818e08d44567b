package loomcase.build;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.BiFunction;
import java.util.function.DoubleSupplier;
import java.util.function.Function;
import java.util.function.IntBinaryOperator;
import java.util.function.IntFunction;
import java.util.function.IntToLongFunction;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import java.util.function.ToLongFunction;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Every sort of call that Java links at run time, with results as text; run as it is and rewritten. */
public final class Linked implements Supplier<String> {
    /** A component of every type. */
    record Every(
            boolean z,
            byte b,
            short s,
            char c,
            int i,
            long j,
            float f,
            double d,
            String text,
            int[] array,
            List<Object> list) {}

    record Empty() {}

    record Generic<T extends Comparable<T>>(T value) {}

    private static final int[] SHARED = {1, 2};

    private final String own = "own";

    private interface Shape {
        private String hidden(int n) {
            return "hidden " + n;
        }

        default IntFunction<String> shown() {
            return this::hidden;
        }
    }

    private static final class Square implements Shape {}

    private abstract static class Above {
        String name() {
            return "above";
        }
    }

    private static final class Below extends Above {
        @Override
        String name() {
            Supplier<String> ofAbove = super::name;
            return ofAbove.get() + " below";
        }
    }

    private String mine(long a, double b) {
        return own + a + b;
    }

    private static long twice(int x) {
        return 2L * x;
    }

    @Override
    public String get() {
        return Stream.of(records(), lambdas(), references()).collect(Collectors.joining("\n"));
    }

    private static String records() {
        record Inside(String a) {}
        Every zero = new Every(false, (byte) 0, (short) 0, 'a', 0, 0, 0f, 0.0, null, SHARED, List.of());
        List<Every> others = List.of(
                zero,
                new Every(false, (byte) 0, (short) 0, 'a', 0, 0, 0f, 0.0, null, SHARED, new ArrayList<>()),
                new Every(true, (byte) 0, (short) 0, 'a', 0, 0, 0f, 0.0, null, SHARED, List.of()),
                new Every(false, (byte) -1, (short) 0, 'a', 0, 0, 0f, 0.0, null, SHARED, List.of()),
                new Every(false, (byte) 0, (short) -7, 'a', 0, 0, 0f, 0.0, null, SHARED, List.of()),
                new Every(false, (byte) 0, (short) 0, 'b', 0, 0, 0f, 0.0, null, SHARED, List.of()),
                new Every(false, (byte) 0, (short) 0, 'a', 1 << 30, 0, 0f, 0.0, null, SHARED, List.of()),
                new Every(false, (byte) 0, (short) 0, 'a', 0, 1L << 40, 0f, 0.0, null, SHARED, List.of()),
                new Every(false, (byte) 0, (short) 0, 'a', 0, 0, -0f, 0.0, null, SHARED, List.of()),
                new Every(false, (byte) 0, (short) 0, 'a', 0, 0, Float.NaN, 0.0, null, SHARED, List.of()),
                new Every(false, (byte) 0, (short) 0, 'a', 0, 0, 0f, -0.0, null, SHARED, List.of()),
                new Every(false, (byte) 0, (short) 0, 'a', 0, 0, 0f, Double.NaN, null, SHARED, List.of()),
                new Every(false, (byte) 0, (short) 0, 'a', 0, 0, 0f, 0.0, "", SHARED, List.of()),
                new Every(false, (byte) 0, (short) 0, 'a', 0, 0, 0f, 0.0, null, null, List.of()));
        StringBuilder out = new StringBuilder();
        for (Every a : others) {
            for (Every b : others) out.append(a.equals(b) ? 1 : 0);
            Every sameArray = new Every(a.z, a.b, a.s, a.c, a.i, a.j, a.f, a.d, a.text, null, a.list);
            out.append(' ')
                    .append(sameArray.hashCode())
                    .append(' ')
                    .append(sameArray)
                    .append('\n');
        }
        out.append(zero.equals(null))
                .append(zero.equals("text"))
                .append(new Empty())
                .append(new Empty().hashCode());
        out.append(new Empty().equals(new Empty())).append(new Generic<>("g")).append(new Generic<>(3).hashCode());
        return out.append(new Inside("in"))
                .append(new Inside("in").equals(new Inside("in")))
                .toString();
    }

    private String lambdas() {
        int i = 3;
        long j = 4;
        double d = 5.5;
        byte b = 6;
        char c = 'c';
        boolean z = true;
        float f = 7.5f;
        short s = 8;
        String text = "t";
        BiFunction<Integer, Long, String> all = (x, y) -> own + i + j + d + b + c + z + f + s + text + x + y;
        IntBinaryOperator add = (x, y) -> x + y + i;
        Function<String, Function<String, String>> nested = x -> y -> x + y + own;
        Runnable nothing = () -> nested.apply("a");
        nothing.run();
        Supplier<int[][]> made = () -> new int[][] {{i}};
        return all.apply(1, 2L) + add.applyAsInt(1, 2) + nested.apply("n").apply("m") + made.get()[0][0];
    }

    private String references() {
        Function<Integer, Long> boxed = Linked::twice;
        IntToLongFunction plain = Linked::twice;
        ToLongFunction<Integer> half = Linked::twice;
        ToDoubleFunction<Integer> widened = Integer::intValue;
        DoubleSupplier wide = "four"::length;
        LongSupplier longer = "five!"::length;
        BiFunction<Integer, Float, String> ownMethod = this::mine;
        Function<String, StringBuilder> constructor = StringBuilder::new;
        IntFunction<String[]> array = String[]::new;
        UnaryOperator<int[]> copy = int[]::clone;
        Comparator<String> order = String::compareToIgnoreCase;
        Supplier<Supplier<String>> inner = () -> new Below()::name;
        Runnable dropped = new ArrayList<>(List.of(1))::size;
        dropped.run();
        return Stream.of(
                        boxed.apply(2),
                        plain.applyAsLong(3),
                        half.applyAsLong(4),
                        widened.applyAsDouble(5),
                        wide.getAsDouble(),
                        longer.getAsLong(),
                        ownMethod.apply(1, 2f),
                        constructor.apply("made"),
                        array.apply(2).length,
                        copy.apply(SHARED)[1],
                        order.compare("a", "B"),
                        inner.get().get(),
                        new Square().shown().apply(9),
                        IntStream.range(0, 4).mapToObj(Integer::toString).collect(Collectors.joining()),
                        Arrays.asList(3, 1, 2).stream()
                                .sorted(Comparator.reverseOrder())
                                .map(String::valueOf)
                                .toList())
                .map(String::valueOf)
                .collect(Collectors.joining(","));
    }
}
