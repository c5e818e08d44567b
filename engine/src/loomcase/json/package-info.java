/**
 * Answers as JSON, for programs and for the page; every face writes the same.
 *
 * <p><b>In:</b> answers of casework and of the stages. <b>Out:</b> {@link loomcase.json.JsonText}, whose forms are the schemas
 * in {@code circuits/}, such as {@code rank.schema.json}. One class is one schema. <b>Must not know:</b> where the text goes.
 */
package loomcase.json;
