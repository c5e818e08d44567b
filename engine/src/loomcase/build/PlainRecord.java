package loomcase.build;

import java.util.ArrayList;
import java.util.List;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.Handle;
import org.objectweb.asm.Label;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/**
 * One of a record's own {@code equals}, {@code hashCode}, {@code toString}, written out as the Java API says of {@code
 * java.lang.Record} and {@code ObjectMethods}: components in order, references by their own methods, primitives by those of
 * their boxes.
 */
final class PlainRecord {
    private static final int ACCESS = Opcodes.ACC_PRIVATE | Opcodes.ACC_STATIC | Opcodes.ACC_SYNTHETIC;
    private static final String OBJECTS = "java/util/Objects";
    private static final String BUILDER = "java/lang/StringBuilder";

    private final String owner;
    private final String which;
    private final String type;
    private final List<Handle> fields = new ArrayList<>();

    /**
     * @param owner internal name of the record
     * @param which name of the method
     * @param type its descriptor, the record as first argument
     * @param given what the linker is given: class, names, a getter for each component
     */
    PlainRecord(String owner, String which, String type, Object... given) {
        this.owner = owner;
        this.which = which;
        this.type = type;
        for (int i = 2; i < given.length; i++) fields.add((Handle) given[i]);
    }

    /** Name of the method written. */
    String method() {
        return "plain$" + which;
    }

    /** Writes the method into the record. */
    void write(ClassVisitor to) {
        MethodVisitor m = to.visitMethod(ACCESS, method(), type, null, null);
        m.visitCode();
        switch (which) {
            case "equals" -> equalTo(m);
            case "hashCode" -> hash(m);
            case "toString" -> text(m);
            default -> throw new IllegalArgumentException("a record has no " + which);
        }
        m.visitEnd();
    }

    private void equalTo(MethodVisitor m) {
        Label other = new Label();
        Label differs = new Label();
        m.visitVarInsn(Opcodes.ALOAD, 1);
        m.visitTypeInsn(Opcodes.INSTANCEOF, owner);
        m.visitJumpInsn(Opcodes.IFNE, other);
        m.visitInsn(Opcodes.ICONST_0);
        m.visitInsn(Opcodes.IRETURN);
        m.visitLabel(other);
        m.visitFrame(Opcodes.F_SAME, 0, null, 0, null);
        for (Handle f : fields) {
            load(m, 0, f);
            m.visitVarInsn(Opcodes.ALOAD, 1);
            m.visitTypeInsn(Opcodes.CHECKCAST, owner);
            m.visitFieldInsn(Opcodes.GETFIELD, owner, f.getName(), f.getDesc());
            compare(m, Type.getType(f.getDesc()), differs);
        }
        m.visitInsn(Opcodes.ICONST_1);
        m.visitInsn(Opcodes.IRETURN);
        if (!fields.isEmpty()) {
            m.visitLabel(differs);
            m.visitFrame(Opcodes.F_SAME, 0, null, 0, null);
            m.visitInsn(Opcodes.ICONST_0);
            m.visitInsn(Opcodes.IRETURN);
        }
        m.visitMaxs(4, 2);
    }

    private static void compare(MethodVisitor m, Type t, Label differs) {
        switch (t.getSort()) {
            case Type.OBJECT, Type.ARRAY -> {
                m.visitMethodInsn(
                        Opcodes.INVOKESTATIC, OBJECTS, "equals", "(Ljava/lang/Object;Ljava/lang/Object;)Z", false);
                m.visitJumpInsn(Opcodes.IFEQ, differs);
            }
            case Type.LONG, Type.FLOAT, Type.DOUBLE -> {
                String d = t.getDescriptor();
                m.visitMethodInsn(Opcodes.INVOKESTATIC, Boxes.of(t), "compare", "(" + d + d + ")I", false);
                m.visitJumpInsn(Opcodes.IFNE, differs);
            }
            default -> m.visitJumpInsn(Opcodes.IF_ICMPNE, differs);
        }
    }

    private void hash(MethodVisitor m) {
        m.visitInsn(Opcodes.ICONST_0);
        for (Handle f : fields) {
            Type t = Type.getType(f.getDesc());
            m.visitIntInsn(Opcodes.BIPUSH, 31);
            m.visitInsn(Opcodes.IMUL);
            load(m, 0, f);
            if (t.getSort() >= Type.ARRAY)
                m.visitMethodInsn(Opcodes.INVOKESTATIC, OBJECTS, "hashCode", "(Ljava/lang/Object;)I", false);
            else
                m.visitMethodInsn(Opcodes.INVOKESTATIC, Boxes.of(t), "hashCode", "(" + t.getDescriptor() + ")I", false);
            m.visitInsn(Opcodes.IADD);
        }
        m.visitInsn(Opcodes.IRETURN);
        m.visitMaxs(3, 1);
    }

    private void text(MethodVisitor m) {
        m.visitTypeInsn(Opcodes.NEW, BUILDER);
        m.visitInsn(Opcodes.DUP);
        m.visitMethodInsn(Opcodes.INVOKESPECIAL, BUILDER, "<init>", "()V", false);
        String before = simpleName() + "[";
        for (Handle f : fields) {
            append(m, before + f.getName() + "=");
            load(m, 0, f);
            m.visitMethodInsn(
                    Opcodes.INVOKESTATIC,
                    "java/lang/String",
                    "valueOf",
                    "(" + general(Type.getType(f.getDesc())) + ")Ljava/lang/String;",
                    false);
            m.visitMethodInsn(Opcodes.INVOKEVIRTUAL, BUILDER, "append", "(Ljava/lang/String;)L" + BUILDER + ";", false);
            before = ", ";
        }
        append(m, fields.isEmpty() ? before + "]" : "]");
        m.visitMethodInsn(Opcodes.INVOKEVIRTUAL, BUILDER, "toString", "()Ljava/lang/String;", false);
        m.visitInsn(Opcodes.ARETURN);
        m.visitMaxs(3, 1);
    }

    private static void append(MethodVisitor m, String text) {
        m.visitLdcInsn(text);
        m.visitMethodInsn(Opcodes.INVOKEVIRTUAL, BUILDER, "append", "(Ljava/lang/String;)L" + BUILDER + ";", false);
    }

    /** What {@code String.valueOf} is given for a component. */
    private static String general(Type t) {
        return switch (t.getSort()) {
            case Type.OBJECT, Type.ARRAY -> "Ljava/lang/Object;";
            case Type.BYTE, Type.SHORT -> "I";
            default -> t.getDescriptor();
        };
    }

    /** As {@code Class.getSimpleName} has it; a record within a method carries a number before its name. */
    private String simpleName() {
        String last = owner.substring(Math.max(owner.lastIndexOf('/'), owner.lastIndexOf('$')) + 1);
        return last.replaceFirst("^[0-9]+", "");
    }

    private void load(MethodVisitor m, int slot, Handle f) {
        m.visitVarInsn(Opcodes.ALOAD, slot);
        m.visitFieldInsn(Opcodes.GETFIELD, owner, f.getName(), f.getDesc());
    }
}
