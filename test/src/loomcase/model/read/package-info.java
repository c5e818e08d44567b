/**
 * Tests of reading circuit files and wire lists. Messages are held word for word; the circuit schema is checked with an
 * independent validator. All circuit data here are invented.
 */
package loomcase.model.read;
