#include "study/compare_airing.h"

#include <math.h>
#include <stdlib.h>

#include "gen/reference.h"
#include "study/compare_impl.h"

#define ROW(name) (&pw_ref_air_airing[pw_ref_air_airing__##name])

/* cool_set: C, NAN none; as in pw_airing_of, nobody waits for rooms warmer than that. */
static void habit(pw_airing *a, double cool_set, int much)
{
  a->share = much ? ROW(share)->high : ROW(share)->low;
  a->down_to_c += (much ? ROW(over_heat)->low : ROW(over_heat)->high) - ROW(over_heat)->value;
  a->down_to_c = fmin(a->down_to_c, cool_set);
  a->over_out = much ? ROW(over_out)->low : ROW(over_out)->high;
  a->dew_most_c = much ? ROW(dew_most)->high : ROW(dew_most)->low;
}

/* Room for the years of one habit. */
typedef struct desk {
  pw_lived_set set[1 + PW_COMPARE_PACKAGES_MAX];
  pw_house_window window[1 + PW_COMPARE_PACKAGES_MAX][PW_WINDOWS_MAX];
} desk;

static pw_status live(const pw_compare *c, int much, const pw_weather *weather,
                      const pw_compare_options *options, pw_year_workspace *workspace, desk *d,
                      pw_compare_airing *out, pw_err *err)
{
  compare_lane lane[1 + PW_COMPARE_PACKAGES_MAX] = {{0}};
  const size_t n = 1 + c->n_package;
  pw_house house = c->lived.house; /* borrows all that it points to */
  habit(&house.airing, house.cool_set_c[0], much);
  for (size_t s = 0; s < n; s++) {
    pw_compare_windows(c->job, &c->fitted, &c->rated, (int)s - 1, d->window[s]);
    lane[s] = (compare_lane){"opened", d->window[s], &d->set[s], NULL};
  }
  pw_status status = pw_compare_live(c->job, &house, weather, options, workspace, lane, n, err);
  for (size_t s = 0; status == PW_OK && s < n; s++)
    *(s == 0 ? &out->existing[much] : &out->package[s - 1][much]) =
        (pw_airing_end){d->set[s].year.hours_warm, d->set[s].year.cooling_kwh};
  return status;
}

pw_status pw_compare_airing_of(const pw_compare *c, const pw_weather *weather,
                               const pw_compare_options *options, pw_year_workspace *workspace,
                               pw_compare_airing *out, pw_err *err)
{
  static const pw_compare_options defaults = {0};
  if (!options) options = &defaults;
  *out = (pw_compare_airing){.told = c->lived.house.airing.hours &&
                                     options->method != PW_YEAR_QUICK};
  if (!out->told) return PW_OK;
  pw_year_workspace *own = workspace ? NULL : pw_year_workspace_new();
  desk *d = calloc(1, sizeof *d);
  pw_status status = d && (workspace || own)
                         ? PW_OK
                         : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the airing");
  for (int much = 0; status == PW_OK && much < PW_AIRING_ENDS; much++)
    status = live(c, much, weather, options, workspace ? workspace : own, d, out, err);
  pw_year_workspace_free(own);
  free(d);
  return status;
}
