/** Pages, PDFs and plain text of one invented document, and of documents that mean harm. */
package loomcase.print;
