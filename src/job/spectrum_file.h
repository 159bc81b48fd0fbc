/* Reads a measured pane in our own CSV form: spectra at normal incidence, or broad-band values.
 *
 *   wavelength_nm,through,back_out,back_in  shares of 1; out is the outdoor side as placed
 *   300,0.0,0.05,0.05                       rising wavelengths
 *   ...
 * or one row
 *   sun_through,sun_back_out,sun_back_in,light_through,light_back_out,light_back_in
 *   0.60,0.07,0.07,0.80,0.08,0.08
 * and uv_through when known (else 0.7 light_through); they become two bands, visible and near infrared,
 * and the ultraviolet.
 *
 * Optional columns of both, their value in the first row: thickness_mm, emissivity_out, emissivity_in
 * (hemispherical; spectra that go on from 5500 to 25000 nm or beyond give them by EN 12898. A pane
 * that may be coated - sides unlike, a class named, or brighter than bare glass can be - wants its
 * emissivity in one of these ways or as `emit E@N` of the build-up), angular (a coating name whose angular dependence the pane takes; without it a
 * pane with unlike sides follows uncoated glass).
 */
#ifndef JOB_SPECTRUM_FILE_H
#define JOB_SPECTRUM_FILE_H

#include <stddef.h>

#include "glass/optics.h"
#include "job/notes.h"

/* Reads a file; the pane's name is the file's, without folder and ".csv", in lower case.
 *
 * Returned  *measured  on the shared grid, linear between, flat beyond the ends
 * Status    PW_OK; PW_E_MISSING, PW_E_IO as of csv.h; PW_E_DATA names file, line and column: a
 *           value that is no share, through and back above 1, wavelengths unsorted, twice, with a gap (over
 *           20 nm below 800, 100 nm above, 2000 nm in the far infrared) or not from 320 to 2100 nm at least, in micrometres or
 *           in per cent by mistake; broad-band values that contradict. On failure *measured is untouched.
 */
pw_status pw_spectrum_file_read(const char *path, pw_notes *notes, pw_measured *measured,
                                pw_err *err);

/* The same from memory. */
pw_status pw_spectrum_file_parse(const char *name, const char *text, size_t size,
                                 pw_notes *notes, pw_measured *measured, pw_err *err);

#endif
