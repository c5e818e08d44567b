/** Fit. */
package loomcase.fit;
