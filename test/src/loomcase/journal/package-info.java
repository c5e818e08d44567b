/**
 * The journal: bytes and digests against outside programs and a published vector, lines against the published schema, kills
 * and writers with real processes, and every refusal word for word.
 */
package loomcase.journal;
