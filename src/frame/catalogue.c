#include "frame/catalogue.h"

#include <math.h>
#include <string.h>

#include "gen/reference.h"

/* The words of the tables, short. Columns of words in reference/frame/schema.csv (spacers, covers) are in the order of the
 * enums here. */
#define U_FRAME(word) pw_ref_glazing_handbook_frame_u__frame_##word
#define U_SPACER(word) pw_ref_glazing_handbook_frame_u__spacer_##word
#define U_GLAZING(word) pw_ref_glazing_handbook_frame_u__glazing_##word
#define PSI_FRAME(word) pw_ref_glazing_iso10077_psi__frame_##word
#define PSI_SPACER(word) pw_ref_glazing_iso10077_psi__spacer_##word
#define PSI_GLAZING(word) pw_ref_glazing_iso10077_psi__glazing_##word

/* The trade's names and the words of the rows they are read from. */
static const struct {
  const char *name;
  unsigned handbook, iso10077;
} frame[PW_FRAME_KIND_COUNT] = {
    [PW_FRAME_ALUMINIUM] = {"aluminium", U_FRAME(aluminium_without_thermal_break),
                            PSI_FRAME(metal_without_thermal_break)},
    [PW_FRAME_ALUMINIUM_BREAK] = {"aluminium with thermal break",
                                  U_FRAME(aluminium_with_thermal_break),
                                  PSI_FRAME(metal_with_thermal_break)},
    [PW_FRAME_WOOD] = {"wood", U_FRAME(wood_vinyl), PSI_FRAME(wood_or_PVC)},
    [PW_FRAME_VINYL] = {"vinyl", U_FRAME(wood_vinyl), PSI_FRAME(wood_or_PVC)},
    [PW_FRAME_FIBREGLASS] = {"fibreglass", U_FRAME(insulated_fibreglass_vinyl),
                             PSI_FRAME(wood_or_PVC)},
    /* No row of its own in the handbook: the films decide there, so aluminium's stands in. */
    [PW_FRAME_STEEL] = {"steel", U_FRAME(aluminium_without_thermal_break),
                        PSI_FRAME(metal_without_thermal_break)},
};
static const struct {
  unsigned handbook, iso10077;
} spacers[PW_SPACER_COUNT] = {
    [PW_SPACER_METAL] = {U_SPACER(metal),
                         PSI_SPACER(typical_aluminium_or_steel_spacer_Table_E_1_2017_G_1)},
    [PW_SPACER_STAINLESS] = {U_SPACER(metal),
                             PSI_SPACER(thermally_improved_spacer_Table_E_2_2017_G_2)},
    [PW_SPACER_INSULATING] = {U_SPACER(insulated),
                              PSI_SPACER(thermally_improved_spacer_Table_E_2_2017_G_2)},
};

const char *pw_frame_kind_name(pw_frame_kind kind)
{
  return (unsigned)kind < PW_FRAME_KIND_COUNT ? frame[kind].name : "unknown";
}

static pw_status check(pw_frame_kind kind, pw_spacer spacer, size_t n_pane, pw_err *err)
{
  if (!((unsigned)kind < PW_FRAME_KIND_COUNT))
    return pw_fail(err, PW_E_DOMAIN, "kind", "frame kind %d, want 0 to %d", (int)kind,
                   PW_FRAME_KIND_COUNT - 1);
  if (!((unsigned)spacer < PW_SPACER_COUNT))
    return pw_fail(err, PW_E_DOMAIN, "spacer", "spacer %d, want 0 to %d", (int)spacer,
                   PW_SPACER_COUNT - 1);
  if (!(n_pane >= 1 && n_pane <= PW_CATALOGUE_PANES))
    return pw_fail(err, PW_E_DOMAIN, "n_pane", "%zu panes, want 1 to %d", n_pane,
                   PW_CATALOGUE_PANES);
  return PW_OK;
}

static pw_status no_row(pw_err *err, const char *table)
{
  return pw_fail(err, PW_E_DATA, table, "the table %s has no row for this", table);
}

static pw_given given(double value, const char *source)
{
  return (pw_given){.value = value, .origin = PW_ORIGIN_TABLE, .source = source};
}

/* How far an old steel sash may lie from aluminium's row: a third of the conductivity in a slimmer frame,
 * with films that bound both; assumed, from memory. */
static const double steel_spread = 0.2;

pw_status pw_catalogue_frame_u(pw_frame_kind kind, pw_operator operator_, size_t n_pane,
                               pw_spacer spacer, pw_given *u, pw_err *err)
{
  pw_status s = check(kind, spacer, n_pane, err);
  if (s != PW_OK) return s;
  unsigned glazing = n_pane == 1   ? U_GLAZING(single)
                     : n_pane == 2 ? U_GLAZING(double)
                                   : U_GLAZING(triple);
  unsigned product = operator_ == PW_FIXED ? pw_ref_glazing_handbook_frame_u__product_fixed
                                           : pw_ref_glazing_handbook_frame_u__product_operable;
  /* A single pane has no spacer: the table keeps it with the metal rows. */
  unsigned word = n_pane == 1 ? U_SPACER(metal) : spacers[spacer].handbook;
  for (size_t i = 0; i < pw_ref_glazing_handbook_frame_u__n; i++) {
    const pw_ref_glazing_handbook_frame_u_row *r = &pw_ref_glazing_handbook_frame_u[i];
    if (r->frame == frame[kind].handbook && r->glazing == glazing && r->product == product &&
        r->unit == pw_ref_glazing_handbook_frame_u__unit_W_m2K &&
        (r->spacer == U_SPACER(all) || r->spacer == word)) {
      *u = given(r->value, "handbook frame U-factor table");
      if (operator_ == PW_HOPPER || operator_ == PW_JALOUSIE || operator_ == PW_HINGED_DOOR)
        u->source = "handbook frame U-factor table, nearest row: operable";
      if (kind == PW_FRAME_STEEL) {
        u->source =
            "steel by the handbook's row of aluminium without thermal break, from memory";
        u->origin = PW_ORIGIN_ASSUMED;
        u->spread = steel_spread * u->value;
      }
      return PW_OK;
    }
  }
  return no_row(err, "glazing/handbook_frame_u");
}

pw_status pw_catalogue_edge_u(pw_spacer spacer, size_t n_pane, double u_center, pw_given *u,
                              pw_err *err)
{
  pw_status s = check(PW_FRAME_ALUMINIUM, spacer, n_pane, err);
  if (s != PW_OK) return s;
  if (!(u_center >= 0.1 && u_center <= 8.0))
    return pw_fail(err, PW_E_DOMAIN, "u_center", "centre U %g W/(m2 K), want 0.1 to 8",
                   u_center);
  if (n_pane == 1) {
    *u = (pw_given){.value = u_center,
                    .origin = PW_ORIGIN_COMPUTED,
                    .source = "single pane: the edge is as the centre"};
    return PW_OK;
  }
  for (size_t i = 0; i < pw_ref_frame_spacer_edge__n; i++) {
    const pw_ref_frame_spacer_edge_row *r = &pw_ref_frame_spacer_edge[i];
    if (r->spacer != (unsigned)spacer) continue;
    /* ASHRAE handbook edge correlation, metal spacer: glazing/constants.csv, agrees. */
    double metal = 1.266 + 0.842 * u_center - 0.027 * u_center * u_center;
    double excess = metal > u_center ? metal - u_center : 0.0;
    *u = given(u_center + r->share * excess, r->source);
    return PW_OK;
  }
  return no_row(err, "frame/spacer_edge");
}

pw_status pw_catalogue_psi(pw_frame_kind kind, pw_spacer spacer, size_t n_pane, int low_e,
                           pw_given *psi, pw_err *err)
{
  pw_status s = check(kind, spacer, n_pane, err);
  if (s != PW_OK) return s;
  unsigned word = n_pane == 1 ? PSI_SPACER(none) : spacers[spacer].iso10077;
  unsigned glazing = n_pane == 1 ? PSI_GLAZING(single)
                     : low_e
                         ? PSI_GLAZING(double_1_pane_low_e_or_triple_2_panes_low_e_air_or_gas)
                         : PSI_GLAZING(double_triple_uncoated_air_or_gas);
  for (size_t i = 0; i < pw_ref_glazing_iso10077_psi__n; i++) {
    const pw_ref_glazing_iso10077_psi_row *r = &pw_ref_glazing_iso10077_psi[i];
    if (r->frame == frame[kind].iso10077 && r->spacer == word && r->glazing == glazing) {
      *psi = given(r->value, r->source);
      return PW_OK;
    }
  }
  return no_row(err, "glazing/iso10077_psi");
}

static const double rounding = 1e-6; /* mm: widths come from inches and back */

/* A value by width, of one word; rows of a table that rises by width. */
typedef struct at_width {
  unsigned word;
  double mm, value;
  const char *source;
} at_width;

/* The rows of a table as the above. */
#define ROWS(rows, table, word_, value_)                                                       \
  size_t n = 0;                                                                                \
  for (; n < table##__n; n++)                                                                  \
    rows[n] = (at_width) { table[n].word_, table[n].width_mm, table[n].value_, table[n].source }

/* Straight between the rows of one word; from_zero: a row (0, 0) comes first. *out is untouched when the width is
 * beyond them, which is refused with the widths there are. */
static pw_status between(const at_width row[], size_t n, unsigned word, double width,
                         int from_zero, const char *what, pw_given *out, pw_err *err)
{
  double mm = 1e3 * width, low = NAN, high = NAN, w0 = from_zero ? 0.0 : (double)NAN, v0 = 0.0;
  for (size_t i = 0; i < n; i++) {
    const at_width *r = &row[i];
    if (r->word != word) continue;
    int on_row = fabs(mm - r->mm) <= rounding;
    if (on_row || (mm >= w0 && mm < r->mm)) {
      *out =
          given(on_row ? r->value : v0 + (r->value - v0) * (mm - w0) / (r->mm - w0), r->source);
      return PW_OK;
    }
    if (isnan(low)) low = from_zero ? 0.0 : r->mm;
    high = w0 = r->mm;
    v0 = r->value;
  }
  return pw_fail(err, PW_E_DOMAIN, "width", "%s %g mm wide, want %g to %g mm (own sections)",
                 what, mm, low, high);
}

pw_status pw_catalogue_spacer_box(pw_spacer spacer, double width, pw_given *conductivity,
                                  pw_err *err)
{
  at_width row[pw_ref_frame_spacer_box__n];
  ROWS(row, pw_ref_frame_spacer_box, spacer, conductivity_w_mk);
  pw_status s = check(PW_FRAME_VINYL, spacer, 2, err);
  if (s == PW_OK) s = between(row, n, (unsigned)spacer, width, 0, "spacer", conductivity, err);
  if (s == PW_OK) conductivity->source = "spacers drawn and computed here";
  return s;
}

pw_status pw_catalogue_ring(const char *filling, double width, pw_given *conductance,
                            pw_err *err)
{
  at_width row[pw_ref_frame_retained_ring__n];
  ROWS(row, pw_ref_frame_retained_ring, filling, conductance);
  unsigned air = filling && strcmp(filling, "air") == 0;
  pw_status s = between(row, n, air, width, 0, "retained ring", conductance, err);
  if (s == PW_OK) conductance->source = "sections drawn and computed here";
  return s;
}

pw_status pw_catalogue_retained(pw_cover cover, double width, pw_given *conductance,
                                pw_err *err)
{
  if (!((unsigned)cover < PW_COVER_COUNT))
    return pw_fail(err, PW_E_DOMAIN, "cover", "cover %d, want 0 to %d", (int)cover,
                   PW_COVER_COUNT - 1);
  if (width == 0.0) {
    *conductance = (pw_given){.origin = PW_ORIGIN_COMPUTED, .source = "no old face stays"};
    return PW_OK;
  }
  at_width row[pw_ref_frame_retained_face__n];
  ROWS(row, pw_ref_frame_retained_face, cover, conductance);
  pw_status s = between(row, n, (unsigned)cover, width, 1, "retained face", conductance, err);
  if (s == PW_OK) conductance->source = "sections drawn and computed here";
  return s;
}

pw_status pw_catalogue_coldest(pw_frame_kind kind, int meeting, pw_spacer spacer,
                               pw_cold_relation *relation, pw_err *err)
{
  enum {
    ALUMINIUM,
    VINYL,
    ANY = PW_SPACER_COUNT
  }; /* as the table's columns count their words */
  pw_status s = check(kind, spacer, 1, err);
  if (s != PW_OK) return s;
  unsigned of = kind == PW_FRAME_ALUMINIUM || kind == PW_FRAME_STEEL ? ALUMINIUM : VINYL;
  for (size_t i = 0; i < pw_ref_frame_coldest__n; i++) {
    const pw_ref_frame_coldest_row *r = &pw_ref_frame_coldest[i];
    if (r->frame == of && r->part == (meeting != 0) &&
        (r->spacer == ANY || r->spacer == (unsigned)spacer)) {
      *relation = (pw_cold_relation){r->base, r->slope, r->below, r->above};
      return PW_OK;
    }
  }
  return no_row(err, "frame/coldest");
}
