/* A catalogue as a CSV file of our own: one row a part that may be chosen.
 *
 *   part,name,thickness,gas,place,pocket,price_per_area,price_per_opening,price_per_length,note
 *
 * part  pane        name (as in a build-up), thickness, price_per_area
 *       coating     name, place "gap" (soft: only faces a gap) or "any", price_per_area
 *       gap         thickness, gas (as in a build-up), price_per_area
 *       spacer      name, price_per_length, a length of glass edge and gap
 *       frame_line  name, pocket (the thickest unit it takes), price_per_area, price_per_opening
 */
#ifndef JOB_CATALOGUE_FILE_H
#define JOB_CATALOGUE_FILE_H

#include "job/notes.h"
#include "study/rank.h"

/* Status    PW_OK; PW_E_MISSING; PW_E_DATA file, line, column, found, wanted; PW_E_NOMEM */
pw_status pw_catalogue_read(const char *path, pw_rank_catalogue *catalogue, pw_notes *notes,
                            pw_err *err);
pw_status pw_catalogue_parse(const char *name, const char *text, size_t size,
                             pw_rank_catalogue *catalogue, pw_notes *notes, pw_err *err);

#endif
