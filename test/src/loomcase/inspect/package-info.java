/** The face of a place: whole plugs of the reference harness, blanks among their cavities. */
package loomcase.inspect;
