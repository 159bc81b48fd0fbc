/* The pane that a build-up names: a row of reference/panes.csv or one of the caller's own. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "base/own_math.h"
#include "base/print.h"
#include "base/table.h"
#include "gen/reference.h"
#include "glass/optics_impl.h"

enum { KNOWN_MAX = 96 };

static double column(const pw_table *table, size_t row, const char *name)
{
  return pw_table_number(table, row, pw_table_column(table, name));
}

static const char *word(const pw_table *table, size_t row, const char *name)
{
  return pw_table_text(table, row, pw_table_column(table, name));
}

pw_status pw_measured_from_bands(const pw_bands *b, const pw_spectrum *spectrum,
                                 pw_measured *measured, pw_err *err)
{
  /* Ultraviolet to 380 nm, visible to 780 nm, near infrared above: the last takes what the
   * solar value leaves. The ultraviolet reflects as the visible does. */
  size_t infrared = 0, visible = 0;
  while (spectrum->nm[visible] <= 380.0)
    visible++;
  while (spectrum->nm[infrared] <= 780.0)
    infrared++;
  double share[3] = {0.0, 0.0, 0.0};
  for (size_t i = 0; i < PW_GRID; i++)
    share[i < visible ? 0 : i < infrared ? 1 : 2] += spectrum->w[PW_W_SOLAR][i];
  double t_ir = (b->tau_e - share[0] * b->tau_uv - share[1] * b->tau_v) / share[2];
  double light = share[0] + share[1];
  double rf_ir = (b->rho_e_out - light * b->rho_v_out) / share[2];
  double rb_ir = (b->rho_e_in - light * b->rho_v_in) / share[2];
  if (!(t_ir >= 0.0 && rf_ir >= 0.0 && rb_ir >= 0.0 && t_ir + rf_ir <= 1.0 &&
        t_ir + rb_ir <= 1.0))
    return pw_fail(err, PW_E_DOMAIN, "pane",
                   "pane '%s': solar and visible values contradict (near infrared would be t "
                   "%.3f, r %.3f and %.3f)",
                   measured->name, t_ir, rf_ir, rb_ir);
  for (size_t i = 0; i < PW_LANE; i++) {
    measured->normal.t[i] = i < visible ? b->tau_uv : i < infrared ? b->tau_v : t_ir;
    measured->normal.rf[i] = i < infrared ? b->rho_v_out : rf_ir;
    measured->normal.rb[i] = i < infrared ? b->rho_v_in : rb_ir;
  }
  return PW_OK;
}

static pw_status unknown(const char *kind, const pw_measured own[], size_t n_own, pw_err *err)
{
  const char *known[KNOWN_MAX];
  size_t n = 0;
  for (; n < n_own && n < KNOWN_MAX; n++)
    known[n] = own[n].name;
  for (size_t i = 0; i < pw_ref_panes__n && n < KNOWN_MAX; i++)
    known[n++] = pw_ref_panes[i].id;
  const char *near = pw_nearest(kind, known, n);
  return pw_fail(err, PW_E_DATA, "kind", "no pane '%s'%s%s", kind,
                 near ? "; did you mean " : " (see panewright tables panes)", near ? near : "");
}

/* Glass by its optical constants, with coatings. */
static pw_status from_constants(const pw_table *table, size_t row, const pw_buildup_pane *pane,
                                const pw_spectrum *spectrum, pw_layer *layer, pw_err *err)
{
  double n[PW_LANE], kappa[PW_LANE];
  char path[96];
  snprintf(path, sizeof path, "optics/spectral/%s", word(table, row, "nk"));
  pw_status status = pw_spectrum_glass(spectrum, path, column(table, row, "k_visible"),
                                       column(table, row, "k_infrared"), n, kappa, err);
  if (status == PW_OK) status = pw_layer_glass(n, kappa, pane->thickness, layer, err);
  if (status == PW_OK)
    status = pw_layer_coat(layer, spectrum, pane->coating[0], pane->coating[1], err);
  return status;
}

static double or_zero(double v) { return isfinite(v) ? v : 0.0; }

/* Among the rows of an id the one of that thickness. */
static pw_status row_of(const pw_table *table, size_t row, const pw_buildup_pane *pane,
                        size_t *best, pw_err *err)
{
  const char *id = word(table, row, "id");
  char sizes[80] = "";
  size_t used = 0;
  *best = row;
  for (size_t i = row; i < table->n_row; i++) {
    if (strcmp(word(table, i, "id"), id) != 0) continue;
    double mm = column(table, i, "thickness_mm");
    if (used + 12 < sizeof sizes)
      used += (size_t)pw_print(sizes + used, sizeof sizes - used, "%s%g", used ? ", " : "", mm);
    if (fabs(mm - pane->thickness * 1e3) <
        fabs(column(table, *best, "thickness_mm") - pane->thickness * 1e3))
      *best = i;
  }
  if (!(fabs(column(table, *best, "thickness_mm") - pane->thickness * 1e3) <= 0.35))
    return pw_fail(err, PW_E_DOMAIN, "thickness", "%g mm %s: values are known for %s mm only",
                   pane->thickness * 1e3, id, sizes);
  return PW_OK;
}

/* Heat through plies and interlayer as one slab of the pane's thickness. */
static double laminate_conductivity(const pw_ref_panes_row *r, double thickness)
{
  static const double glass = 1.0; /* W/(m K), EN 673 */
  double plies = (r->ply_out_mm + r->ply_in_mm) * 1e-3, between = r->interlayer_mm * 1e-3;
  return thickness /
         (plies / glass + between / pw_ref_sound_interlayer[r->interlayer].conductivity_w_mk);
}

/* Plies by their optical constants; the interlayer takes ultraviolet below 380 nm and is clear beyond
 * (assumed), its index that of the glass. */
static pw_status from_plies(const pw_table *table, size_t row, const pw_buildup_pane *pane,
                            const pw_spectrum *spectrum, pw_layer *layer, pw_err *err)
{
  double n[PW_LANE], kappa[PW_LANE];
  char path[96];
  size_t best = row;
  pw_status status = row_of(table, row, pane, &best, err);
  if (status != PW_OK) return status;
  const pw_ref_panes_row *r = &pw_ref_panes[best];
  double plies = (r->ply_out_mm + r->ply_in_mm) * 1e-3;
  snprintf(path, sizeof path, "optics/spectral/%s", r->nk);
  status = pw_spectrum_glass(spectrum, path, r->k_visible, r->k_infrared, n, kappa, err);
  for (size_t i = 0; status == PW_OK && i < PW_LANE; i++)
    if (spectrum->nm[i] <= 380.0)
      kappa[i] -= pw_log(pw_ref_sound_interlayer[r->interlayer].uv_through) / plies;
  if (status == PW_OK) status = pw_layer_glass(n, kappa, plies, layer, err);
  if (status == PW_OK)
    status = pw_layer_coat(layer, spectrum, pane->coating[0], pane->coating[1], err);
  if (status == PW_OK) layer->conductivity = laminate_conductivity(r, pane->thickness);
  return status;
}

/* A pane by its broad-band values; thickness picks among the rows of its id. */
static pw_status from_bands(const pw_table *table, size_t row, const pw_buildup_pane *pane,
                            const pw_spectrum *spectrum, pw_layer *layer, pw_err *err)
{
  const char *id = word(table, row, "id");
  size_t best = row;
  pw_status status = row_of(table, row, pane, &best, err);
  if (status != PW_OK) return status;
  pw_bands b = {column(table, best, "sun_through"),    column(table, best, "sun_back_out"),
                column(table, best, "sun_back_in"),    column(table, best, "light_through"),
                column(table, best, "light_back_out"), column(table, best, "light_back_in"),
                column(table, best, "uv_through")};
  pw_measured m = {.emit = {or_zero(column(table, best, "emit_out")),
                            or_zero(column(table, best, "emit_in"))}};
  snprintf(m.name, sizeof m.name, "%s", id);
  snprintf(m.angular, sizeof m.angular, "%s", word(table, best, "angular"));
  status = pw_measured_from_bands(&b, spectrum, &m, err);
  if (status == PW_OK) status = pw_layer_measured(&m, spectrum, layer, err);
  if (status == PW_OK)
    layer->conductivity = pw_ref_panes[best].interlayer >= 0
                              ? laminate_conductivity(&pw_ref_panes[best], pane->thickness)
                              : or_zero(column(table, best, "conductivity"));
  return status;
}

static pw_status no_coating(const pw_buildup_pane *pane, pw_err *err)
{
  const char *coating = pane->coating[0][0] ? pane->coating[0] : pane->coating[1];
  if (!coating[0]) return PW_OK;
  return pw_fail(err, PW_E_DATA, "coating",
                 "coating '%s' on '%s': that pane is known only as a whole; a coating goes on "
                 "glass known by its constants (clear, lowiron, bronze, gray, green)",
                 coating, pane->kind);
}

/* May this measured pane carry a film? Bare glass reflects alike on both sides, and at most 0.09. */
static int may_be_coated(const pw_measured *own)
{
  static const double alike = 0.015, bare_most = 0.15; /* measured to 0.01 or better */
  const pw_sheet *s = &own->normal;
  for (size_t i = 0; i < PW_GRID; i++)
    if (fabs(s->rf[i] - s->rb[i]) > alike || s->rf[i] > bare_most || s->rb[i] > bare_most)
      return 1;
  return own->angular[0] != '\0';
}

/* A film's emissivity cannot be told from the solar range: it must be stated, for the coated side or for
 * both. */
static pw_status emissivity_known(const pw_measured *own, const pw_buildup_pane *pane,
                                  pw_err *err)
{
  static const double low = 0.8; /* no bare glass is below */
  double e[2];
  for (size_t side = 0; side < 2; side++)
    e[side] = pane->emit[side] > 0.0 ? pane->emit[side] : own->emit[side];
  int known =
      (e[0] > 0.0 && e[1] > 0.0) || (e[0] > 0.0 && e[0] < low) || (e[1] > 0.0 && e[1] < low);
  if (known || !may_be_coated(own)) return PW_OK;
  return pw_fail(err, PW_E_DATA, "emissivity",
                 "pane '%s' may be coated and its far infrared is unknown: want emissivity_out "
                 "or emissivity_in of the coated side (both, 0.84, where it is bare), rows "
                 "from %d to %d nm, or emit E@N",
                 own->name, PW_FAR_FIRST_NM, PW_FAR_LAST_NM);
}

static pw_status from_own(const pw_measured *own, const pw_buildup_pane *pane,
                          const pw_spectrum *spectrum, pw_layer *layer, pw_err *err)
{
  if (own->thickness > 0.0 && !(fabs(own->thickness - pane->thickness) <= 0.35e-3))
    return pw_fail(err, PW_E_DOMAIN, "thickness", "%g mm %s: its spectra are for %g mm",
                   pane->thickness * 1e3, own->name, own->thickness * 1e3);
  pw_status status = emissivity_known(own, pane, err);
  return status == PW_OK ? pw_layer_measured(own, spectrum, layer, err) : status;
}

pw_status pw_layer_init(const pw_buildup_pane *pane, const pw_measured own[], size_t n_own,
                        const pw_spectrum *spectrum, pw_layer *layer, pw_err *err)
{
  if (!(pane->thickness >= 0.5e-3 && pane->thickness <= 50e-3))
    return pw_fail(err, PW_E_DOMAIN, "thickness", "pane thickness %g mm, want 0.5 to 50",
                   pane->thickness * 1e3);
  for (size_t i = 0; i < n_own; i++) {
    if (strcmp(own[i].name, pane->kind) != 0) continue;
    pw_status status = no_coating(pane, err);
    return status == PW_OK ? from_own(&own[i], pane, spectrum, layer, err) : status;
  }
  const pw_table *table = pw_table_find("panes");
  for (size_t row = 0; row < pw_ref_panes__n; row++) {
    if (strcmp(word(table, row, "id"), pane->kind) != 0) continue;
    if (word(table, row, "nk")[0] && pw_ref_panes[row].interlayer >= 0)
      return from_plies(table, row, pane, spectrum, layer, err);
    if (word(table, row, "nk")[0])
      return from_constants(table, row, pane, spectrum, layer, err);
    pw_status status = no_coating(pane, err);
    return status == PW_OK ? from_bands(table, row, pane, spectrum, layer, err) : status;
  }
  return unknown(pane->kind, own, n_own, err);
}
