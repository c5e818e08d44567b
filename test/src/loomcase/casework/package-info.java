/** Tests of what every face asks: answers kept, cases that grow, lines refused because of others. */
package loomcase.casework;
