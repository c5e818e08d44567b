/** Tests of the page: requests over real HTTP, and a real browser over the whole path of a case. */
package loomcase.web;
