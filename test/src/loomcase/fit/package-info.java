/** Tests of fit: mating, transfer, slips. */
package loomcase.fit;
