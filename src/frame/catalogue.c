#include "panewright/catalogue.h"

#include <string.h>

#include "panewright/table.h"

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
  if (!(n_pane >= 1 && n_pane <= PW_PANES_MAX))
    return pw_fail(err, PW_E_DOMAIN, "n_pane", "%zu panes, want 1 to %d", n_pane, PW_PANES_MAX);
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
  int c_spacer = t ? pw_table_column(t, "spacer") : -1;
  for (size_t i = 0; t && i < t->n_row; i++) {
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

pw_status pw_catalogue_ring(const char *filling, double width, pw_given *conductance,
                            pw_err *err)
{
  static const char table[] = "frame/retained_ring";
  if (!(width >= 0.0 && width <= 0.2))
    return pw_fail(err, PW_E_DOMAIN, "width", "retained ring %g m wide, want 0 to 0.2", width);
  const char *word = filling && strcmp(filling, "air") == 0 ? "air" : "foam";
  const pw_table *t = pw_table_find(table);
  if (!t) return no_row(err, table);
  int c_filling = pw_table_column(t, "filling"), c_width = pw_table_column(t, "width_mm");
  size_t found[2], n = 0;
  for (size_t i = 0; i < t->n_row && n < 2; i++)
    if (is(t, i, c_filling, word)) found[n++] = i;
  if (n < 2) return no_row(err, table);
  pw_given a = given(t, found[0], "conductance"), b = given(t, found[1], "conductance");
  double wa = pw_table_number(t, found[0], c_width), wb = pw_table_number(t, found[1], c_width);
  *conductance = a;
  conductance->value = a.value + (b.value - a.value) * (width * 1e3 - wa) / (wb - wa);
  conductance->source = "sections drawn and computed here";
  return PW_OK;
}
