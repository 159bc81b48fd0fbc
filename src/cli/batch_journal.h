/* How far a batch has come, kept beside its output, so that a run that was killed can go on and a
 * whole one can be told from any other file.
 *
 * FILE.journal holds a line of what the run is, then a line a mark: how much of the input was read, how
 * much of the output and of the rejects stands, and the running check sums of all three. What is
 * written is on the disk before a mark tells of it. Bytes beyond the last mark are cut off and done
 * again. The last mark of a whole run ends in "whole"; the journal stays as the answer's seal. Output, rejects
 * and journal are locked while a run writes them. */
#ifndef CLI_BATCH_JOURNAL_H
#define CLI_BATCH_JOURNAL_H

#include "cli/batch_run.h"

typedef struct batch_journal {
  int fd; /* -1: none is kept */
  char path[4200];
  double last; /* s, when the last mark was written */
  const batch_sink *out, *rejects;
} batch_journal;

/* Opens an output of a batch and locks it; nothing in it is touched yet.
 * Status PW_OK; PW_E_CREATE also when another run holds it. */
pw_status batch_sink_open(batch_sink *sink, pw_err *err);

/* Opens the output (and rejects, may have no name) for a new run, or for going on with an old one.
 *
 * Given     path of the output; what: the version and options that results depend on; resume
 * Returned  the sinks, at the place to go on from; *from: the mark reached, zero for a start
 *           *whole 1: *from is the end of a whole run; the caller reads the input to it and there is
 *           nothing else to do
 * Status    PW_OK; PW_E_CREATE also when another run holds a file; PW_E_IO; PW_E_DATA, before anything
 *           is cut: the journal is of another run, an output has no journal or was edited
 */
pw_status batch_journal_open(batch_journal *journal, const char *path, const char *what,
                             int resume, batch_sink *out, batch_sink *rejects, batch_mark *from,
                             int *whole, pw_err *err);

/* On a resume, once the input is known to be the same: cuts the sinks at the mark. */
pw_status batch_journal_cut(const batch_mark *from, batch_sink *out, batch_sink *rejects,
                            pw_err *err);

/* Notes a mark, at most five a second. */
pw_status batch_journal_mark(batch_journal *journal, const batch_mark *mark, pw_err *err);

/* The run is whole: its last mark says so. */
pw_status batch_journal_end(batch_journal *journal, const batch_mark *mark, pw_err *err);
void batch_journal_close(batch_journal *journal);

#endif
