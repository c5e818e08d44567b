/**
 * Keeps on disk what was worked out of a circuit, so that the next run need not do it again.
 *
 * <p><b>In:</b> a circuit file, a folder. <b>Out:</b> a {@link loomcase.predict.Dictionary}. Start reading at {@link
 * loomcase.cache.CacheFolder}.
 *
 * <p><b>Method.</b> A file's name is the SHA-256 digest of everything that its content depends on: the bytes of the
 * circuit file, the program's own classes, the Java that runs it, the operating point. Nothing is ever out of date; a
 * change of any of these is another name. Priors and a shop's rules are not among them: the tables hold probabilities of
 * watches, which neither changes, and what the rules conclude is kept only where the program's own rules alone speak. What
 * a complaint needed beside the single faults (sets of a common cause, pairs, readings) is kept at the end of a command,
 * so that the next one about it need not solve it again. A file is written whole beside its place and then moved there;
 * its content carries a checksum, and what does not fit is worked out again and overwritten.
 *
 * <p><b>Limits.</b> Never needed: without it, or when it cannot be written, every answer is the same to the last byte, only
 * later. The folder is kept below a size by deleting what was used longest ago.
 *
 * <p><b>Must not know:</b> what the bytes mean.
 */
package loomcase.cache;
