/** Tests of the pictures. */
package loomcase.draw;
