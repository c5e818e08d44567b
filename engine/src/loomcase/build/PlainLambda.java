package loomcase.build;

import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Handle;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/**
 * The class of one lambda or method reference: what it has captured as fields, and the one method of its interface, which
 * calls the lambda's body.
 *
 * <p>Arguments and result are adapted as the Java API says of {@code LambdaMetafactory}: a reference is cast, a primitive is
 * boxed, unboxed or widened, a result nobody wants is dropped.
 *
 * @param name internal name of the class
 * @param host internal name of the nest's host
 * @param method name of the interface's method
 * @param captured types of what is captured, the interface as result
 * @param erased type of the interface's method
 * @param body the lambda's body
 * @param actual type of the interface's method as it is called
 */
record PlainLambda(String name, String host, String method, Type captured, Type erased, Handle body, Type actual) {
    /** Name of the method that makes an instance. */
    static final String MAKE = "make";

    /** The class file. */
    byte[] bytes() {
        ClassWriter out = new ClassWriter(ClassWriter.COMPUTE_MAXS);
        String face = captured.getReturnType().getInternalName();
        int access = Opcodes.ACC_FINAL | Opcodes.ACC_SUPER | Opcodes.ACC_SYNTHETIC;
        out.visit(Opcodes.V17, access, name, null, "java/lang/Object", new String[] {face});
        out.visitNestHost(host);
        Type[] kept = captured.getArgumentTypes();
        for (int i = 0; i < kept.length; i++)
            out.visitField(Opcodes.ACC_PRIVATE | Opcodes.ACC_FINAL, field(i), kept[i].getDescriptor(), null, null)
                    .visitEnd();
        constructor(out, kept);
        maker(out, kept);
        call(out, kept);
        out.visitEnd();
        return out.toByteArray();
    }

    private static String field(int i) {
        return "c" + i;
    }

    private static String constructorType(Type... kept) {
        return Type.getMethodDescriptor(Type.VOID_TYPE, kept);
    }

    private void constructor(ClassWriter out, Type... kept) {
        MethodVisitor m = out.visitMethod(Opcodes.ACC_PRIVATE, "<init>", constructorType(kept), null, null);
        m.visitCode();
        m.visitVarInsn(Opcodes.ALOAD, 0);
        m.visitMethodInsn(Opcodes.INVOKESPECIAL, "java/lang/Object", "<init>", "()V", false);
        int slot = 1;
        for (int i = 0; i < kept.length; i++) {
            m.visitVarInsn(Opcodes.ALOAD, 0);
            m.visitVarInsn(kept[i].getOpcode(Opcodes.ILOAD), slot);
            m.visitFieldInsn(Opcodes.PUTFIELD, name, field(i), kept[i].getDescriptor());
            slot += kept[i].getSize();
        }
        end(m, Type.VOID_TYPE);
    }

    private void maker(ClassWriter out, Type... kept) {
        MethodVisitor m = out.visitMethod(Opcodes.ACC_STATIC, MAKE, captured.getDescriptor(), null, null);
        m.visitCode();
        m.visitTypeInsn(Opcodes.NEW, name);
        m.visitInsn(Opcodes.DUP);
        int slot = 0;
        for (Type t : kept) {
            m.visitVarInsn(t.getOpcode(Opcodes.ILOAD), slot);
            slot += t.getSize();
        }
        m.visitMethodInsn(Opcodes.INVOKESPECIAL, name, "<init>", constructorType(kept), false);
        end(m, captured.getReturnType());
    }

    private void call(ClassWriter out, Type... kept) {
        MethodVisitor m = out.visitMethod(Opcodes.ACC_PUBLIC, method, erased.getDescriptor(), null, null);
        m.visitCode();
        boolean constructs = body.getTag() == Opcodes.H_NEWINVOKESPECIAL;
        Type owner = Type.getObjectType(body.getOwner());
        if (constructs) {
            m.visitTypeInsn(Opcodes.NEW, body.getOwner());
            m.visitInsn(Opcodes.DUP);
        }
        Type[] wanted = wanted(owner);
        for (int i = 0; i < kept.length; i++) {
            m.visitVarInsn(Opcodes.ALOAD, 0);
            m.visitFieldInsn(Opcodes.GETFIELD, name, field(i), kept[i].getDescriptor());
        }
        int slot = 1;
        Type[] come = erased.getArgumentTypes();
        for (int i = 0; i < come.length; i++) {
            m.visitVarInsn(come[i].getOpcode(Opcodes.ILOAD), slot);
            slot += come[i].getSize();
            adapt(m, come[i], actual.getArgumentTypes()[i]);
            adapt(m, actual.getArgumentTypes()[i], wanted[kept.length + i]);
        }
        m.visitMethodInsn(opcode(), body.getOwner(), body.getName(), body.getDesc(), body.isInterface());
        Type given = constructs ? owner : Type.getReturnType(body.getDesc());
        adapt(m, given, actual.getReturnType());
        adapt(m, actual.getReturnType(), erased.getReturnType());
        end(m, erased.getReturnType());
    }

    /** Types that the body wants, whom it is called on first. */
    private Type[] wanted(Type owner) {
        Type[] own = Type.getArgumentTypes(body.getDesc());
        if (body.getTag() == Opcodes.H_INVOKESTATIC || body.getTag() == Opcodes.H_NEWINVOKESPECIAL) return own;
        Type[] out = new Type[own.length + 1];
        out[0] = owner;
        System.arraycopy(own, 0, out, 1, own.length);
        return out;
    }

    /** Within a nest a private method is called as any other. */
    private int opcode() {
        return switch (body.getTag()) {
            case Opcodes.H_INVOKESTATIC -> Opcodes.INVOKESTATIC;
            case Opcodes.H_NEWINVOKESPECIAL -> Opcodes.INVOKESPECIAL;
            default -> body.isInterface() ? Opcodes.INVOKEINTERFACE : Opcodes.INVOKEVIRTUAL;
        };
    }

    private static boolean primitive(Type t) {
        return t.getSort() < Type.ARRAY;
    }

    private static void adapt(MethodVisitor m, Type from, Type to) {
        if (from.equals(to) || to.getSort() == Type.VOID && from.getSort() == Type.VOID) return;
        if (to.getSort() == Type.VOID) m.visitInsn(from.getSize() == 2 ? Opcodes.POP2 : Opcodes.POP);
        else if (primitive(from) && primitive(to)) widen(m, from, to);
        else if (primitive(from)) box(m, from);
        else if (primitive(to)) unbox(m, from, to);
        else if (!to.getInternalName().equals("java/lang/Object"))
            m.visitTypeInsn(Opcodes.CHECKCAST, to.getInternalName());
    }

    private static void box(MethodVisitor m, Type from) {
        String box = Boxes.of(from);
        m.visitMethodInsn(Opcodes.INVOKESTATIC, box, "valueOf", "(" + from.getDescriptor() + ")L" + box + ";", false);
    }

    /** Unboxed by the box that is there, widened then where that is not the one wanted. */
    private static void unbox(MethodVisitor m, Type from, Type to) {
        Type held = Boxes.held(from).orElse(to);
        String box = Boxes.of(held);
        m.visitTypeInsn(Opcodes.CHECKCAST, box);
        m.visitMethodInsn(
                Opcodes.INVOKEVIRTUAL, box, held.getClassName() + "Value", "()" + held.getDescriptor(), false);
        if (!held.equals(to)) widen(m, held, to);
    }

    private static void widen(MethodVisitor m, Type from, Type to) {
        if (to.getSort() <= Type.INT) return;
        String word = kind(from) + "2" + kind(to);
        switch (word) {
            case "I2J" -> m.visitInsn(Opcodes.I2L);
            case "I2F" -> m.visitInsn(Opcodes.I2F);
            case "I2D" -> m.visitInsn(Opcodes.I2D);
            case "J2F" -> m.visitInsn(Opcodes.L2F);
            case "J2D" -> m.visitInsn(Opcodes.L2D);
            case "F2D" -> m.visitInsn(Opcodes.F2D);
            default -> throw new IllegalArgumentException("a lambda cannot widen " + from + " to " + to);
        }
    }

    private static String kind(Type t) {
        return t.getSort() <= Type.INT ? "I" : t.getDescriptor();
    }

    private static void end(MethodVisitor m, Type result) {
        m.visitInsn(result.getOpcode(Opcodes.IRETURN));
        m.visitMaxs(0, 0);
        m.visitEnd();
    }
}
