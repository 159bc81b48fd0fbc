#include "panewright/opening_package.h"

#include <math.h>
#include <string.h>

size_t pw_opening_package_row(const pw_opening *opening, size_t column)
{
  return opening->own_package ? opening->own_package - 1 : column;
}

int pw_opening_has_own(const pw_opening *opening)
{
  return opening->own_package > 0 || opening->glass_text[0] != '\0';
}

/* No label speaks of a glass that the package does not have. */
static void own_glass(const pw_opening *opening, pw_package *package)
{
  const pw_given none = {.value = (double)NAN};
  package->glass = opening->glass;
  memcpy(package->glass_text, opening->glass_text, sizeof package->glass_text);
  package->label_u = package->label_shgc = package->label_vt = none;
  package->label_rw = package->label_ctr = package->label_stc = package->label_oitc =
      (pw_given){0};
  package->certificate[0] = '\0';
  for (size_t i = 0; package->open_tubes && i + 1 < package->glass.n_pane; i++)
    package->glass.gap[i].mix = (pw_mix){0}; /* open tubes lose the gas; safety.csv AL2 */
}

void pw_opening_package(const pw_job *job, size_t column, const pw_opening *opening,
                        pw_package *package)
{
  *package = job->package[pw_opening_package_row(opening, column)];
  if (opening->glass_text[0]) own_glass(opening, package);
}

const pw_frame_line *pw_opening_line(const pw_job *job, size_t column,
                                     const pw_opening *opening)
{
  return pw_frame_line_pick(job->frame_line, job->n_frame_line,
                            job->package[pw_opening_package_row(opening, column)].frame_line,
                            opening->operator_insert);
}

int pw_phase_of(const pw_opening *opening) { return opening->phase > 1 ? opening->phase : 1; }
