package loomcase.build;

import java.util.Arrays;
import java.util.Optional;
import org.objectweb.asm.Type;

/** The class that boxes each primitive. */
enum Boxes {
    BOOLEAN(Type.BOOLEAN_TYPE, "java/lang/Boolean"),
    BYTE(Type.BYTE_TYPE, "java/lang/Byte"),
    CHAR(Type.CHAR_TYPE, "java/lang/Character"),
    SHORT(Type.SHORT_TYPE, "java/lang/Short"),
    INT(Type.INT_TYPE, "java/lang/Integer"),
    LONG(Type.LONG_TYPE, "java/lang/Long"),
    FLOAT(Type.FLOAT_TYPE, "java/lang/Float"),
    DOUBLE(Type.DOUBLE_TYPE, "java/lang/Double");

    private final Type primitive;
    private final String box;

    Boxes(Type primitive, String box) {
        this.primitive = primitive;
        this.box = box;
    }

    /** Internal name of the class that boxes a primitive. */
    static String of(Type primitive) {
        return Arrays.stream(values())
                .filter(b -> b.primitive.equals(primitive))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no primitive: " + primitive))
                .box;
    }

    /** The primitive that a class boxes, empty when it is no box. */
    static Optional<Type> held(Type box) {
        return Arrays.stream(values())
                .filter(b -> b.box.equals(box.getInternalName()))
                .map(b -> b.primitive)
                .findFirst();
    }
}
