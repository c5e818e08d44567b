/** Tests of many cases at once: order, errors, bounded reading ahead. */
package loomcase.fleet;
