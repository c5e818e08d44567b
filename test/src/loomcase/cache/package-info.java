/** Tests of what is kept on disk: same answers with it, without it and with it damaged. */
package loomcase.cache;
