#include "frame/catalogue.h"

#include <math.h>
#include <string.h>

#include "base/table.h"

/* The trade's names and the rows they are read from. */
static const struct {
  const char *name, *handbook, *iso10077;
} frame[PW_FRAME_KIND_COUNT] = {
    [PW_FRAME_ALUMINIUM] = {"aluminium", "aluminium without thermal break",
                            "metal without thermal break"},
    [PW_FRAME_ALUMINIUM_BREAK] = {"aluminium with thermal break",
                                  "aluminium with thermal break", "metal with thermal break"},
    [PW_FRAME_WOOD] = {"wood", "wood / vinyl", "wood or PVC"},
    [PW_FRAME_VINYL] = {"vinyl", "wood / vinyl", "wood or PVC"},
    [PW_FRAME_FIBREGLASS] = {"fibreglass", "insulated fibreglass / vinyl", "wood or PVC"},
    /* No row of its own in the handbook: the films decide there, so aluminium's stands in. */
    [PW_FRAME_STEEL] = {"steel", "aluminium without thermal break",
                        "metal without thermal break"},
};
static const struct {
  const char *name, *handbook;
} spacers[PW_SPACER_COUNT] = {
    [PW_SPACER_METAL] = {"metal", "metal"},
    [PW_SPACER_STAINLESS] = {"stainless", "metal"},
    [PW_SPACER_INSULATING] = {"insulating", "insulated"},
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

/* A table value with where it comes from. */
static pw_given given(const pw_table *t, size_t row, const char *column)
{
  return (pw_given){.value = pw_table_number(t, row, pw_table_column(t, column)),
                    .origin = PW_ORIGIN_TABLE,
                    .source = pw_table_text(t, row, pw_table_column(t, "source"))};
}

static int is(const pw_table *t, size_t row, int column, const char *word)
{
  const char *text = pw_table_text(t, row, column);
  return text[0] == word[0] &&
         strcmp(text, word) == 0; /* most rows differ in their first letter */
}

static int begins(const pw_table *t, size_t row, int column, const char *word)
{
  const char *text = pw_table_text(t, row, column);
  return text[0] == word[0] && strncmp(text, word, strlen(word)) == 0;
}

/* How far an old steel sash may lie from aluminium's row: a third of the conductivity in a slimmer frame,
 * with films that bound both; assumed, from memory. */
static const double steel_spread = 0.2;

pw_status pw_catalogue_frame_u(pw_frame_kind kind, pw_operator operator_, size_t n_pane,
                               pw_spacer spacer, pw_given *u, pw_err *err)
{
  static const char table[] = "glazing/handbook_frame_u";
  static const char *const panes[] = {"single", "double", "triple"};
  pw_status s = check(kind, spacer, n_pane, err);
  if (s != PW_OK) return s;
  const pw_table *t = pw_table_find(table);
  if (!t) return no_row(err, table);
  int c_frame = pw_table_column(t, "frame"), c_spacer = pw_table_column(t, "spacer"),
      c_product = pw_table_column(t, "product"), c_glazing = pw_table_column(t, "glazing"),
      c_unit = pw_table_column(t, "unit");
  const char *glazing = panes[n_pane > 3 ? 2 : n_pane - 1];
  const char *product = operator_ == PW_FIXED ? "fixed" : "operable";
  /* A single pane has no spacer: the table keeps it with the metal rows. */
  const char *spacer_word = n_pane == 1 ? "metal" : spacers[spacer].handbook;
  for (size_t i = 0; i < t->n_row; i++)
    if (is(t, i, c_frame, frame[kind].handbook) && is(t, i, c_unit, "W/m2K") &&
        is(t, i, c_glazing, glazing) && is(t, i, c_product, product) &&
        (is(t, i, c_spacer, "all") || is(t, i, c_spacer, spacer_word))) {
      *u = given(t, i, "value");
      u->source = "handbook frame U-factor table";
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
  return no_row(err, table);
}

pw_status pw_catalogue_edge_u(pw_spacer spacer, size_t n_pane, double u_center, pw_given *u,
                              pw_err *err)
{
  static const char table[] = "frame/spacer_edge";
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
  const pw_table *t = pw_table_find(table);
  if (!t) return no_row(err, table);
  int c_spacer = pw_table_column(t, "spacer");
  for (size_t i = 0; i < t->n_row; i++) {
    if (!is(t, i, c_spacer, spacers[spacer].name)) continue;
    pw_given share = given(t, i, "share");
    /* ASHRAE handbook edge correlation, metal spacer: glazing/constants.csv, agrees. */
    double metal = 1.266 + 0.842 * u_center - 0.027 * u_center * u_center;
    double excess = metal > u_center ? metal - u_center : 0.0;
    *u = share;
    u->value = u_center + share.value * excess;
    return PW_OK;
  }
  return no_row(err, table);
}

pw_status pw_catalogue_psi(pw_frame_kind kind, pw_spacer spacer, size_t n_pane, int low_e,
                           pw_given *psi, pw_err *err)
{
  static const char table[] = "glazing/iso10077_psi";
  pw_status s = check(kind, spacer, n_pane, err);
  if (s != PW_OK) return s;
  const pw_table *t = pw_table_find(table);
  if (!t) return no_row(err, table);
  int c_frame = pw_table_column(t, "frame"), c_spacer = pw_table_column(t, "spacer"),
      c_glazing = pw_table_column(t, "glazing"), c_source = pw_table_column(t, "source");
  const char *spacer_word = n_pane == 1                 ? "none"
                            : spacer == PW_SPACER_METAL ? "typical (aluminium"
                                                        : "thermally improved";
  const char *glazing = n_pane == 1 ? "single"
                        : low_e     ? "double (1 pane low-e)"
                                    : "double/triple";
  for (size_t i = 0; i < t->n_row; i++)
    if (is(t, i, c_frame, frame[kind].iso10077) && begins(t, i, c_spacer, spacer_word) &&
        begins(t, i, c_glazing, glazing) && begins(t, i, c_source, "ISO 10077-1:2006")) {
      *psi = given(t, i, "value");
      return PW_OK;
    }
  return no_row(err, table);
}

static const double rounding = 1e-6; /* mm: widths come from inches and back */

/* Straight between the rows of one kind in a table that rises by width_mm; from_zero: a row (0, 0)
 * comes first. *out is untouched when the width is beyond them. */
static int between(const pw_table *t, const char *column, const char *word, double mm,
                   int from_zero, const char *value, pw_given *out)
{
  int c_word = pw_table_column(t, column), c_width = pw_table_column(t, "width_mm");
  double w0 = from_zero ? 0.0 : (double)NAN, v0 = 0.0;
  for (size_t i = 0; i < t->n_row; i++) {
    if (!is(t, i, c_word, word)) continue;
    pw_given g = given(t, i, value);
    double w1 = pw_table_number(t, i, c_width);
    int on_row = fabs(mm - w1) <= rounding;
    if (on_row || (mm >= w0 && mm < w1)) {
      if (!on_row) g.value = v0 + (g.value - v0) * (mm - w0) / (w1 - w0);
      *out = g;
      return 1;
    }
    w0 = w1;
    v0 = g.value;
  }
  return 0;
}

/* The widths a table has for a word, for what a refusal says. */
static pw_status beyond(const pw_table *t, const char *column, const char *word, double mm,
                        int from_zero, const char *what, pw_err *err)
{
  int c_word = pw_table_column(t, column), c_width = pw_table_column(t, "width_mm");
  double low = NAN, high = NAN;
  for (size_t i = 0; i < t->n_row; i++) {
    if (!is(t, i, c_word, word)) continue;
    high = pw_table_number(t, i, c_width);
    if (isnan(low)) low = from_zero ? 0.0 : high;
  }
  return pw_fail(err, PW_E_DOMAIN, "width", "%s %g mm wide, want %g to %g mm (own sections)",
                 what, mm, low, high);
}

static pw_status look_up(const char *table, const char *column, const char *word, double width,
                         int from_zero, const char *value, const char *what, pw_given *out,
                         pw_err *err)
{
  const pw_table *t = pw_table_find(table);
  if (!t) return no_row(err, table);
  double mm = 1e3 * width;
  if (between(t, column, word, mm, from_zero, value, out)) return PW_OK;
  return beyond(t, column, word, mm, from_zero, what, err);
}

pw_status pw_catalogue_spacer_box(pw_spacer spacer, double width, pw_given *conductivity,
                                  pw_err *err)
{
  pw_status s = check(PW_FRAME_VINYL, spacer, 2, err);
  if (s == PW_OK)
    s = look_up("frame/spacer_box", "spacer", spacers[spacer].name, width, 0,
                "conductivity_w_mk", "spacer", conductivity, err);
  if (s == PW_OK) conductivity->source = "spacers drawn and computed here";
  return s;
}

pw_status pw_catalogue_ring(const char *filling, double width, pw_given *conductance,
                            pw_err *err)
{
  const char *word = filling && strcmp(filling, "air") == 0 ? "air" : "foam";
  pw_status s = look_up("frame/retained_ring", "filling", word, width, 0, "conductance",
                        "retained ring", conductance, err);
  if (s == PW_OK) conductance->source = "sections drawn and computed here";
  return s;
}

pw_status pw_catalogue_retained(pw_cover cover, double width, pw_given *conductance,
                                pw_err *err)
{
  static const char *const word[PW_COVER_COUNT] = {"bare", "pvc", "wood", "foam_trim"};
  if (!((unsigned)cover < PW_COVER_COUNT))
    return pw_fail(err, PW_E_DOMAIN, "cover", "cover %d, want 0 to %d", (int)cover,
                   PW_COVER_COUNT - 1);
  if (width == 0.0) {
    *conductance = (pw_given){.origin = PW_ORIGIN_COMPUTED, .source = "no old face stays"};
    return PW_OK;
  }
  pw_status s = look_up("frame/retained_face", "cover", word[cover], width, 1, "conductance",
                        "retained face", conductance, err);
  if (s == PW_OK) conductance->source = "sections drawn and computed here";
  return s;
}

pw_status pw_catalogue_coldest(pw_frame_kind kind, int meeting, pw_spacer spacer,
                               pw_cold_relation *relation, pw_err *err)
{
  static const char table[] = "frame/coldest";
  pw_status s = check(kind, spacer, 1, err);
  if (s != PW_OK) return s;
  const pw_table *t = pw_table_find(table);
  if (!t) return no_row(err, table);
  int c_frame = pw_table_column(t, "frame"), c_part = pw_table_column(t, "part"),
      c_spacer = pw_table_column(t, "spacer");
  const char *frame_word =
      kind == PW_FRAME_ALUMINIUM || kind == PW_FRAME_STEEL ? "aluminium" : "vinyl";
  for (size_t i = 0; i < t->n_row; i++)
    if (is(t, i, c_frame, frame_word) && is(t, i, c_part, meeting ? "meeting" : "frame") &&
        (is(t, i, c_spacer, "any") || is(t, i, c_spacer, spacers[spacer].name))) {
      *relation = (pw_cold_relation){pw_table_number(t, i, pw_table_column(t, "base")),
                                     pw_table_number(t, i, pw_table_column(t, "slope")),
                                     pw_table_number(t, i, pw_table_column(t, "below")),
                                     pw_table_number(t, i, pw_table_column(t, "above"))};
      return PW_OK;
    }
  return no_row(err, table);
}
