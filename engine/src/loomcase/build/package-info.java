/**
 * Helps to build the program; nothing of it runs when the program does.
 *
 * <p><b>In:</b> the jar of the program and the libraries that the build has gathered. <b>Out:</b> the same in a form that
 * starts faster. Start reading at {@link loomcase.build.PlainCalls}; {@link loomcase.build.NewerClasses} is for libraries.
 *
 * <p><b>Must not know:</b> the rest of the program.
 */
package loomcase.build;
