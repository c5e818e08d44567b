/** Tests of sentences in other languages. */
package loomcase.translate;
