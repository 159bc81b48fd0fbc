#include "window/opening_package.h"

#include <string.h>

#include "window/options.h"

size_t pw_opening_package_row(const pw_opening *opening, size_t column)
{
  return opening->own_package ? opening->own_package - 1 : column;
}

int pw_opening_has_own(const pw_opening *opening)
{
  return opening->own_package > 0 || opening->glass_text[0] != '\0' ||
         pw_options_change_glass(&opening->option);
}

/* No label speaks of a glass that the package does not have. */
static void no_label(pw_package *package)
{
  const pw_given none = {.value = PW_NOT_GIVEN};
  package->label_u = package->label_shgc = package->label_vt = none;
  package->label_rw = package->label_ctr = package->label_stc = package->label_oitc = none;
  package->certificate[0] = '\0';
}

static void own_glass(const pw_opening *opening, pw_package *package)
{
  no_label(package);
  package->glass = opening->glass;
  memcpy(package->glass_text, opening->glass_text, sizeof package->glass_text);
  for (size_t i = 0; package->open_tubes && i + 1 < package->glass.n_pane; i++)
    package->glass.gap[i].mix = (pw_mix){0}; /* open tubes lose the gas; safety.csv AL2 */
}

/* Its package and its own glass, without tint and pattern. */
static void untinted(const pw_job *job, size_t column, const pw_opening *opening,
                     pw_package *package)
{
  *package = job->package[pw_opening_package_row(opening, column)];
  if (opening->glass_text[0]) own_glass(opening, package);
}

void pw_opening_package(const pw_job *job, size_t column, const pw_opening *opening,
                        pw_package *package)
{
  untinted(job, column, opening, package);
  if (!pw_options_change_glass(&opening->option)) return;
  if (pw_options_glass(&opening->option, &package->glass, NULL) == PW_OK) no_label(package);
}

pw_status pw_opening_package_check(const pw_job *job, size_t column, const pw_opening *opening,
                                   pw_err *err)
{
  pw_package package;
  untinted(job, column, opening, &package);
  return pw_options_suit(&opening->option, &package.glass, err);
}

const pw_frame_line *pw_opening_line(const pw_job *job, size_t column,
                                     const pw_opening *opening)
{
  return pw_frame_line_pick(job->frame_line, job->n_frame_line,
                            job->package[pw_opening_package_row(opening, column)].frame_line,
                            opening->operator_insert);
}

const pw_frame_line *pw_opening_fit_line(const pw_job *job, size_t column,
                                         const pw_opening *opening)
{
  static const pw_frame_line none = {.operator_ = PW_OPERATOR_COUNT,
                                     .frame_face = 1e-3,
                                     .sash_face = 1e-3,
                                     .meeting_face = 1e-3};
  return opening->standing == PW_STAYS ? &none : pw_opening_line(job, column, opening);
}

int pw_phase_of(const pw_opening *opening) { return opening->phase > 1 ? opening->phase : 1; }
