/* Section files: CSV in millimetres, one rectangle a row.
 *
 *   # notes
 *   x0,y0,x1,y1,material,note
 *   0,0,57,1.5,aluminium,retained base web
 *   ,101.8,,,sightline,
 * Columns conductivity_w_mk and emissivity are optional and override the material's; the order of
 * columns is free and others are ignored. A sightline row gives y0 (or, where heat flows along y,
 * x0 alone).
 */
#ifndef JOB_SECTION_FILE_H
#define JOB_SECTION_FILE_H

#include "frame/section.h"

/* Reads and checks (as pw_section_check). any_size 1: take coordinates of any size for millimetres;
 * else a section under 30 mm or over 10 m is taken for a slip of unit and refused.
 * Status  PW_OK; PW_E_MISSING no such file; PW_E_IO; PW_E_DATA (file, line and column are in err);
 *         PW_E_SHAPE; PW_E_NOMEM. On failure *section is empty and owns nothing. */
pw_status pw_section_read(const char *path, int any_size, pw_section *section, pw_err *err);

/* The same from text in memory; name stands for the file in messages. */
pw_status pw_section_parse(const char *name, const char *text, size_t size, int any_size,
                           pw_section *section, pw_err *err);

#endif
