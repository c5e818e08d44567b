/** Tests of drills; the bench against ngspice, a divider and the thermistor law, the seal against a search of its bytes. */
package loomcase.drill;
