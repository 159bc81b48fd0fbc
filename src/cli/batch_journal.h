/* How far a batch has come, kept beside its output, so that a run that was killed can go on.
 *
 * FILE.journal holds a line of what the run is, then a line a mark; the output is flushed to the disk
 * before a mark is written, so a mark never tells of rows that are not there. Rows beyond the last mark
 * are cut off and done again. The journal goes when the run is whole. */
#ifndef CLI_BATCH_JOURNAL_H
#define CLI_BATCH_JOURNAL_H

#include "cli/batch_run.h"

typedef struct batch_journal {
  int fd; /* -1: none is kept */
  char path[4200];
  double last; /* s, when the last mark was written */
  const batch_sink *out, *rejects;
} batch_journal;

/* Opens the output (and rejects, may have no name) for a new run, or for going on with an old one.
 *
 * Given     path of the output; what: the options that results depend on; resume
 * Returned  the sinks, at the place to go on from; *from: the mark reached, zero for a start
 *           *whole 1: there is nothing left to do
 * Status    PW_OK; PW_E_CREATE; PW_E_IO; PW_E_DATA the journal is of another run
 */
pw_status batch_journal_open(batch_journal *journal, const char *path, const char *what,
                             int resume, batch_sink *out, batch_sink *rejects, batch_mark *from,
                             int *whole, pw_err *err);

/* Notes a mark, at most five a second. */
pw_status batch_journal_mark(batch_journal *journal, const batch_mark *mark, pw_err *err);

/* The run is whole: the journal goes. */
void batch_journal_end(batch_journal *journal);
void batch_journal_close(batch_journal *journal);

#endif
