/** Programs that measure; they are run by hand and check nothing. */
package loomcase.bench;
