/* Code defaults: the rows of both tables are found by frame, product, panes and tint, and computed
 * clear sliders with catalogue frames come out at 0.8 to 1.03 of them: a default is near the bad
 * end of what is computed, not far above it. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "check/table_rows.h"
#include "frame/catalogue.h"
#include "panewright/rating.h"
#include "panewright/units.h"
#include "window/code_default.h"

static const struct {
  pw_code code;
  pw_frame_kind kind;
  pw_operator operator_;
  size_t n_pane;
  int tinted;
  const char *metric;
  double ip; /* Btu/(h ft2 F), or a share */
} row[] = {
    /* IECC R303.1.3(1) and (3), 2012 to 2021; values from memory in criteria.csv. */
    {PW_CODE_IECC, PW_FRAME_ALUMINIUM, PW_SLIDER, 1, 0, "U", 1.20},
    {PW_CODE_IECC, PW_FRAME_ALUMINIUM, PW_FIXED, 2, 0, "U", 0.80},
    {PW_CODE_IECC, PW_FRAME_ALUMINIUM_BREAK, PW_SLIDER, 1, 0, "U", 1.10},
    {PW_CODE_IECC, PW_FRAME_ALUMINIUM_BREAK, PW_SLIDER, 2, 0, "U", 0.65},
    {PW_CODE_IECC, PW_FRAME_WOOD, PW_SLIDER, 1, 0, "U", 0.95},
    {PW_CODE_IECC, PW_FRAME_VINYL, PW_SLIDER, 2, 0, "U", 0.55},
    {PW_CODE_IECC, PW_FRAME_ALUMINIUM, PW_SLIDER, 1, 0, "SHGC", 0.8},
    {PW_CODE_IECC, PW_FRAME_ALUMINIUM, PW_SLIDER, 1, 1, "SHGC", 0.7},
    {PW_CODE_IECC, PW_FRAME_ALUMINIUM, PW_SLIDER, 2, 0, "SHGC", 0.7},
    {PW_CODE_IECC, PW_FRAME_ALUMINIUM, PW_SLIDER, 2, 1, "SHGC", 0.6},
    {PW_CODE_IECC, PW_FRAME_ALUMINIUM, PW_SLIDER, 2, 0, "VT", 0.6},
    {PW_CODE_IECC, PW_FRAME_ALUMINIUM, PW_SLIDER, 2, 1, "VT", 0.3},
    /* California Energy Code 110.6-A and B, 2013 to 2025. */
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM, PW_SLIDER, 1, 0, "U", 1.28},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM, PW_SLIDER, 2, 0, "U", 0.79},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM, PW_FIXED, 1, 0, "U", 1.19},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM, PW_FIXED, 2, 0, "U", 0.71},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM, PW_SLIDING_DOOR, 1, 0, "U", 1.25},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM, PW_SLIDING_DOOR, 2, 0, "U", 0.77},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM_BREAK, PW_CASEMENT, 2, 0, "U", 0.66},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM_BREAK, PW_FIXED, 2, 0, "U", 0.55},
    {PW_CODE_CALIFORNIA, PW_FRAME_VINYL, PW_SLIDER, 1, 0, "U", 0.99},
    {PW_CODE_CALIFORNIA, PW_FRAME_FIBREGLASS, PW_SLIDER, 3, 0, "U", 0.58},
    {PW_CODE_CALIFORNIA, PW_FRAME_WOOD, PW_FIXED, 1, 0, "U", 1.04},
    {PW_CODE_CALIFORNIA, PW_FRAME_WOOD, PW_FIXED, 2, 0, "U", 0.55},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM, PW_SLIDER, 1, 0, "SHGC", 0.80},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM, PW_FIXED, 1, 1, "SHGC", 0.68},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM, PW_FIXED, 2, 0, "SHGC", 0.73},
    {PW_CODE_CALIFORNIA, PW_FRAME_ALUMINIUM_BREAK, PW_SLIDER, 2, 0, "SHGC", 0.63},
    {PW_CODE_CALIFORNIA, PW_FRAME_VINYL, PW_SLIDER, 2, 0, "SHGC", 0.65},
    {PW_CODE_CALIFORNIA, PW_FRAME_WOOD, PW_FIXED, 2, 1, "SHGC", 0.55},
};

static pw_status defaults(const pw_check_sink *sink, pw_err *err)
{
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_code_values v;
    pw_status s = pw_code_default(row[i].code, row[i].kind, row[i].operator_, row[i].n_pane,
                                  row[i].tinted, &v, err);
    if (s != PW_OK) return s;
    int is_u = row[i].metric[0] == 'U', is_shgc = row[i].metric[0] == 'S';
    char what[120];
    snprintf(what, sizeof what, "%s, %s, %s, %zu pane%s%s", pw_code_name(row[i].code),
             row[i].metric, pw_frame_kind_name(row[i].kind), row[i].n_pane,
             row[i].n_pane > 1 ? "s" : "", row[i].tinted ? ", tinted" : "");
    pw_check_give(sink, "code_default", what, is_u ? "Btu/hft2F" : "-",
                  is_u      ? v.u / PW_U_IP
                  : is_shgc ? v.shgc
                            : v.vt,
                  row[i].ip, 1e-9, is_u ? v.source_u : v.source_shgc, "memory");
  }
  return PW_OK;
}

/* A 1.2 x 1.5 m clear window: 3 mm panes, 12.7 mm air, usual existing sight lines of 45 mm. */
static pw_status computed(pw_frame_kind kind, size_t panes, pw_operator operator_,
                          double *u_center, double *u, pw_err *err)
{
  pw_unit unit = {.n_pane = panes};
  pw_unit_result r;
  pw_given frame, edge;
  for (size_t i = 0; i < panes; i++)
    unit.pane[i].thickness = 0.003;
  unit.gap[0].thickness = 0.0127;
  pw_status s = pw_unit_solve(&unit, &pw_env_winter, NULL, &r, err);
  if (s == PW_OK)
    s = pw_catalogue_frame_u(kind, operator_, panes, PW_SPACER_METAL, &frame, err);
  if (s == PW_OK) s = pw_catalogue_edge_u(PW_SPACER_METAL, panes, r.u, &edge, err);
  if (s != PW_OK) return s;
  double e = edge.value, face = 0.045;
  const pw_rating_lite lite = {1.2 - 2.0 * face, 1.5 - 2.0 * face, {e, e, e, e}};
  const pw_rating_part part = {PW_PART_FRAME, 1.8 - lite.width * lite.height, frame.value, 0,
                               0};
  const pw_rating_input in = {.width = 1.2,
                              .height = 1.5,
                              .u_center = r.u,
                              .lite = &lite,
                              .n_lite = 1,
                              .part = &part,
                              .n_part = 1};
  pw_rating rating;
  s = pw_rating_window(&in, &rating, err);
  *u_center = r.u;
  *u = rating.u;
  return s;
}

static pw_status upper_checks(const pw_check_sink *sink, pw_err *err)
{
  static const pw_frame_kind kinds[] = {PW_FRAME_ALUMINIUM, PW_FRAME_ALUMINIUM_BREAK,
                                        PW_FRAME_VINYL};
  for (size_t k = 0; k < 3; k++)
    for (size_t panes = 1; panes <= 2; panes++) {
      pw_code_values v;
      double u = 0.0, center = 0.0;
      pw_status s = computed(kinds[k], panes, PW_SLIDER, &center, &u, err);
      if (s == PW_OK) s = pw_code_default(PW_CODE_IECC, kinds[k], PW_SLIDER, panes, 0, &v, err);
      if (s != PW_OK) return s;
      char what[120];
      snprintf(what, sizeof what, "computed %s slider, %zu pane(s), against the IECC bound",
               pw_frame_kind_name(kinds[k]), panes);
      pw_check_give_range(sink, "upper_check", what, "Btu/hft2F", u / PW_U_IP,
                          0.8 * v.u / PW_U_IP, 1.03 * v.u / PW_U_IP, 0, v.source_u, "memory");
    }
  return PW_OK;
}

/* California NA6-1 for site-built fixed windows: U = a + b U_centre (read; the page says which
 * frames). Ours with a 45 mm face differs by the frame assumed, so the rows are advisory. */
static pw_status na6(const pw_check_sink *sink, pw_err *err)
{
  static const struct {
    pw_frame_kind kind;
    double a, b;
  } eq[] = {{PW_FRAME_ALUMINIUM, 0.311, 0.872},
            {PW_FRAME_ALUMINIUM_BREAK, 0.202, 0.867},
            {PW_FRAME_VINYL, 0.202, 0.867}};
  for (size_t k = 0; k < 3; k++) {
    double u = 0.0, center = 0.0;
    pw_status s = computed(eq[k].kind, 2, PW_FIXED, &center, &u, err);
    if (s != PW_OK) return s;
    double want = eq[k].a + eq[k].b * center / PW_U_IP;
    char what[96];
    snprintf(what, sizeof what, "computed fixed %s window against NA6-1",
             pw_frame_kind_name(eq[k].kind));
    pw_check_give_as(sink, 1, "na6", what, "Btu/hft2F", u / PW_U_IP, want, 0.1 * want,
                     "California Reference Nonresidential Appendix NA6 (2019)", "read");
  }
  return PW_OK;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  pw_status s = defaults(sink, err);
  if (s == PW_OK) s = upper_checks(sink, err);
  if (s == PW_OK) s = na6(sink, err);
  return s;
}

extern const pw_check_group pw_check_code_default;
const pw_check_group pw_check_code_default = {
    "code_default", "code defaults of unlabelled windows, as upper checks", run};
