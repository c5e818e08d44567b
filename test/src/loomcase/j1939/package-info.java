/** Tests of the J1939 vocabulary; the numbers from outside stand in /data/j1939 with their sources. */
package loomcase.j1939;
