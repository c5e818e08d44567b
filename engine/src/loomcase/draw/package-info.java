/** Pictures of a harness. */
package loomcase.draw;
