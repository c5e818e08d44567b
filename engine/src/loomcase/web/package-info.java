/**
 * The page: a local server for one folder of cases, bound to loopback, and what its requests may do.
 *
 * <p><b>In:</b> requests of a browser on this computer. <b>Out:</b> pages from the program's own resources, and answers under
 * {@code /api} as JSON, all from casework, inspect and draw; this package computes nothing itself. State lives in the case
 * files alone: a server that was killed and started again shows the same.
 *
 * <p><b>Loopback is not a trust border.</b> {@link loomcase.web.Gate} stands before everything: the Host header must be this
 * server's own, so that a foreign name that resolves to this computer gets nothing; requests that a browser says come from
 * another site are refused; a change needs POST, the page's own Origin and the token of this start in a header that a foreign
 * page cannot set. Files are reached by name only, names follow one pattern, and what a name leads to must lie in the folder. A
 * change to a case carries the digest of the last line that its page knew, and is refused when there are later ones. Whoever can
 * use this computer under another account can use the page too; that is its known limit.
 *
 * <p>Requests that need a ranking which is not made yet are answered with how far it is, and asked again. A browser's tab gets no JSON but a plain page where something went wrong, and
 * while a sheet is being made one that asks again by itself. <b>Must not know:</b>
 * how anything is reckoned. Start reading at {@link loomcase.web.WebServer}.
 */
package loomcase.web;
