/* A utility's usage feed: NAESB REQ.21 (ESPI) elements in an Atom feed, read into bills.
 *
 * Intervals of under a week are summed to calendar months of the meter's local time; longer ones and
 * billing periods stay as they are.
 */
#ifndef JOB_USAGE_FEED_H
#define JOB_USAGE_FEED_H

#include "job/bills_file.h"

typedef struct pw_feed_options {
  double zone_h; /* local standard time less UTC where the feed does not say; NAN not given */
  const char
      *unit; /* of values whose unit the feed does not say or says wrongly; NULL not given */
  int meter; /* which of several meter readings, from 1; 0 not given */
} pw_feed_options;

/* 1 when the text begins as a feed does. */
int pw_feed_fits(const char *text, size_t size);

/* Reads a feed.
 *
 * Returned  *bills; notes: what was tied by order, estimated, doubled, guessed
 * Status    PW_OK; PW_E_DATA with line and column: no well-formed XML, a document type (DTD), nesting
 *           deeper than 40, a text of over 64 kB, more than 4 000 000 readings; a number that is none; a unit
 *           or fuel not known; several meters of a fuel and none named; readings that overlap; no
 *           reading; PW_E_NOMEM
 * Source    reference/meter/ESPI.md.
 */
pw_status pw_feed_parse(const char *name, const char *text, size_t size,
                        const pw_feed_options *options, pw_bills *bills, pw_notes *notes,
                        pw_err *err);

/* Bills from a file, whichever it is: bills.csv or a feed. Status as pw_bills_parse and pw_feed_parse. */
pw_status pw_bills_open(const char *path, const pw_feed_options *options, pw_bills *bills,
                        pw_notes *notes, pw_err *err);

#endif
