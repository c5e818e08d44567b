/** Tests of the claim. */
package loomcase.claim;
