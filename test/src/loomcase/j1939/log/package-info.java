/** Tests of the log reader; frames from outside stand in /data/j1939 with their sources. */
package loomcase.j1939.log;
