/** Tests of the proofs of a circuit: each proof is broken alone, and the shipped circuits pass. */
package loomcase.check;
