/**
 * Loomcase: from diesel engine trouble codes to the one place in the wiring harness that explains them.
 *
 * <p>Data flows one way and each stage is a package: {@code j1939} (input), {@code model}, {@code faults}, {@code
 * solve}, {@code predict}, {@code rank}, {@code plan}; faces such as {@code cli} stand on top and hold no reasoning.
 */
package loomcase;
