/** Tests of what helps to build the program. */
package loomcase.build;
