#include "job/spectrum_file.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "job/csv.h"
#include "panewright/unit.h"

enum {
  WAVELENGTH,
  T,
  R_FRONT,
  R_BACK,
  THICKNESS,
  EMIT_FRONT,
  EMIT_BACK,
  ANGULAR,
  T_SOL,
  RF_SOL,
  RB_SOL,
  T_VIS,
  RF_VIS,
  RB_VIS,
  T_UV,
  N_COLUMN
};
/* Which are required follows from the form. */
static const pw_csv_column column[N_COLUMN] = {
    {"wavelength_nm", 0},  {"through", 0},        {"back_out", 0},      {"back_in", 0},
    {"thickness_mm", 0},   {"emissivity_out", 0}, {"emissivity_in", 0}, {"angular", 0},
    {"sun_through", 0},    {"sun_back_out", 0},   {"sun_back_in", 0},   {"light_through", 0},
    {"light_back_out", 0}, {"light_back_in", 0},  {"uv_through", 0}};

static const double first_nm = 320.0, last_nm = 2100.0, lamp_nm = 800.0;
static const double gap_below = 20.0, gap_above = 100.0, gap_far = 2000.0;

typedef struct curves {
  const pw_csv *csv;
  const int *index;
  double *nm, *v[3]; /* owned by the caller */
  pw_err *err;
} curves;

static pw_status refuse(const curves *c, size_t row, int which, const char *text)
{
  return pw_fail_at(c->err, PW_E_DATA, c->csv->name, c->csv->line[row + 1], c->index[which] + 1,
                    "%s: found '%.40s', want %s", column[which].name,
                    pw_csv_at(c->csv, row, c->index[which]), text);
}

/* A plain number from low to high. */
static pw_status cell(const curves *c, size_t row, int which, double low, double high,
                      const char *want, double *v)
{
  const char *text = pw_csv_at(c->csv, row, c->index[which]);
  char *end = NULL;
  double got = strtod(text, &end);
  int plain = text[0] && strspn(text, "0123456789+-.eE") == strlen(text);
  if (!plain || end == text || *end || !(got >= low && got <= high))
    return refuse(c, row, which, want);
  *v = got;
  return PW_OK;
}

static pw_status wavelength(const curves *c, size_t row)
{
  pw_status s = cell(c, row, WAVELENGTH, 0.1, 100000.0, "nanometres", &c->nm[row]);
  if (s != PW_OK) return s;
  if (c->nm[row] < 50.0)
    return refuse(c, row, WAVELENGTH,
                  "nanometres, 250 to 2500 (these look like micrometres: multiply by 1000)");
  if (row == 0) return PW_OK;
  double step = c->nm[row] - c->nm[row - 1];
  if (step == 0.0) return refuse(c, row, WAVELENGTH, "each wavelength once");
  if (step < 0.0) return refuse(c, row, WAVELENGTH, "wavelengths that rise from row to row");
  double from = c->nm[row - 1];
  double allowed = from < lamp_nm ? gap_below : from < PW_FAR_FIRST_NM ? gap_above : gap_far;
  int solar = from >= 300.0 - gap_below && from < 2500.0;
  int far = from >= PW_FAR_FIRST_NM && from < PW_FAR_LAST_NM;
  if (step > allowed && (solar || far)) {
    char want[96];
    snprintf(want, sizeof want, "no gap: %g nm after %g, at most %g nm here", step,
             c->nm[row - 1], allowed);
    return refuse(c, row, WAVELENGTH, want);
  }
  return PW_OK;
}

static pw_status shares(const curves *c, size_t row)
{
  for (int k = 0; k < 3; k++) {
    double v = atof(pw_csv_at(c->csv, row, c->index[T + k]));
    if (v > 1.5 && v <= 100.0)
      return refuse(c, row, T + k, "a share from 0 to 1 (this looks like per cent)");
    pw_status s = cell(c, row, T + k, 0.0, 1.0, "a share from 0 to 1", &c->v[k][row]);
    if (s != PW_OK) return s;
  }
  for (int k = 1; k < 3; k++)
    if (c->v[0][row] + c->v[k][row] > 1.0 + 1e-9) {
      char want[64];
      snprintf(want, sizeof want, "through and back not above 1 together (through is %g)",
               c->v[0][row]);
      return refuse(c, row, T + k, want);
    }
  return PW_OK;
}

/* What the first row says beside its spectra. */
static pw_status facts(const curves *c, pw_measured *m)
{
  static const struct {
    int which;
    double low, high, factor;
    const char *want;
  } fact[] = {{THICKNESS, 0.5, 50.0, 1e-3, "0.5 to 50 mm"},
              {EMIT_FRONT, 0.001, 1.0, 1.0, "an emissivity of 0.001 to 1"},
              {EMIT_BACK, 0.001, 1.0, 1.0, "an emissivity of 0.001 to 1"}};
  double *out[] = {&m->thickness, &m->emit[0], &m->emit[1]};
  for (size_t i = 0; i < 3; i++) {
    double v = 0.0;
    if (!pw_csv_at(c->csv, 0, c->index[fact[i].which])[0]) continue;
    pw_status s = cell(c, 0, fact[i].which, fact[i].low, fact[i].high, fact[i].want, &v);
    if (s != PW_OK) return s;
    *out[i] = v * fact[i].factor;
  }
  snprintf(m->angular, sizeof m->angular, "%s", pw_csv_at(c->csv, 0, c->index[ANGULAR]));
  return PW_OK;
}

/* One row of broad-band values. */
static pw_status take_bands(const curves *c, const pw_spectrum *grid, pw_measured *m)
{
  pw_bands b = {0};
  double *out[] = {&b.tau_e,     &b.rho_e_out, &b.rho_e_in, &b.tau_v,
                   &b.rho_v_out, &b.rho_v_in,  &b.tau_uv};
  if (c->csv->n_row != 1)
    return pw_fail(c->err, PW_E_DATA, "rows", "%s: want one row of values, found %zu",
                   c->csv->name, c->csv->n_row);
  for (int k = T_SOL; k <= T_UV; k++) {
    if (k == T_UV && !pw_csv_at(c->csv, 0, c->index[k])[0]) break;
    pw_status s = cell(c, 0, k, 0.0, 1.0, "a share from 0 to 1", out[k - T_SOL]);
    if (s != PW_OK) return s;
  }
  if (!pw_csv_at(c->csv, 0, c->index[T_UV])[0]) b.tau_uv = 0.7 * b.tau_v; /* as clear float */
  return pw_measured_from_bands(&b, grid, m, c->err);
}

/* Emissivities of rows that reach into the far infrared, where no column states one. */
static pw_status far_infrared(const curves *c, pw_measured *m)
{
  size_t n = c->csv->n_row;
  if (c->nm[n - 1] < PW_FAR_LAST_NM) return PW_OK;
  pw_status s = PW_OK;
  for (size_t side = 0; side < 2 && s == PW_OK; side++)
    if (!(m->emit[side] > 0.0))
      s = pw_emissivity_measured(c->nm, c->v[0], c->v[1 + side], n, &m->emit[side], c->err);
  return s;
}

/* Rows of spectra. */
static pw_status take_curves(const curves *c, const pw_spectrum *grid, pw_measured *m)
{
  size_t n = c->csv->n_row;
  if (n < 2)
    return pw_fail(c->err, PW_E_DATA, "rows", "%s: want spectra, found %zu rows", c->csv->name,
                   n);
  for (size_t row = 0; row < n; row++) {
    pw_status s = wavelength(c, row);
    if (s == PW_OK) s = shares(c, row);
    if (s != PW_OK) return s;
  }
  if (c->nm[0] > first_nm) return refuse(c, 0, WAVELENGTH, "a first wavelength up to 320 nm");
  if (c->nm[n - 1] < last_nm)
    return refuse(c, n - 1, WAVELENGTH, "a last wavelength of 2100 nm or beyond");
  double *out[] = {m->normal.t, m->normal.rf, m->normal.rb};
  for (int k = 0; k < 3; k++)
    pw_spectrum_resample(grid, c->nm, c->v[k], n, out[k]);
  return far_infrared(c, m);
}

static pw_status take(const curves *c, int bands, pw_measured *m)
{
  pw_spectrum grid;
  pw_layer tried;
  pw_spectrum_init(&grid);
  pw_status s = facts(c, m);
  if (s == PW_OK) s = bands ? take_bands(c, &grid, m) : take_curves(c, &grid, m);
  return s == PW_OK ? pw_layer_measured(m, &grid, &tried, c->err) : s;
}

/* A word that a build-up can say. */
static pw_status set_name(const char *file, pw_measured *m, pw_err *err)
{
  const char *base = strrchr(file, '/');
  base = base ? base + 1 : file;
  size_t n = strlen(base);
  if (n > 4 && strcmp(base + n - 4, ".csv") == 0) n -= 4;
  int plain = n > 0 && n < PW_NAME_MAX && isalpha((unsigned char)base[0]);
  for (size_t i = 0; plain && i < n; i++)
    plain =
        isalnum((unsigned char)base[i]) || base[i] == '_' || base[i] == '-' || base[i] == '.';
  if (!plain)
    return pw_fail(
        err, PW_E_DATA, "name",
        "%.80s: the file's name names the pane: want a letter, then letters, digits, "
        "_ - or ., under %d in all",
        base, PW_NAME_MAX);
  for (size_t i = 0; i < n; i++)
    m->name[i] = (char)tolower((unsigned char)base[i]);
  m->name[n] = '\0';
  return PW_OK;
}

/* Broad-band values when the header says sun_through. Returns it; known[] gets what is then required. */
static int form(const pw_csv *csv, pw_csv_column known[N_COLUMN])
{
  int bands = 0;
  for (size_t i = 0; i < csv->n_col; i++)
    bands = bands || strcasecmp(csv->cell[i], column[T_SOL].name) == 0;
  for (int i = 0; i < N_COLUMN; i++) {
    known[i] = column[i];
    known[i].required = bands ? i >= T_SOL && i <= RB_VIS : i <= R_BACK;
  }
  return bands;
}

/* Words of an earlier form, refused with the words of today. */
static pw_status refuse_old_words(const pw_csv *csv, pw_err *err)
{
  static const char *const old[][2] = {{"t", "through"},
                                       {"r_front", "back_out"},
                                       {"r_back", "back_in"},
                                       {"t_sol", "sun_through"},
                                       {"rf_sol", "sun_back_out"},
                                       {"rb_sol", "sun_back_in"},
                                       {"t_vis", "light_through"},
                                       {"rf_vis", "light_back_out"},
                                       {"rb_vis", "light_back_in"},
                                       {"t_uv", "uv_through"},
                                       {"emissivity_front", "emissivity_out"},
                                       {"emissivity_back", "emissivity_in"}};
  for (size_t c = 0; c < csv->n_col; c++)
    for (size_t i = 0; i < sizeof old / sizeof old[0]; i++)
      if (strcasecmp(csv->cell[c], old[i][0]) == 0)
        return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], (int)c + 1,
                          "the column '%s' is called %s now", old[i][0], old[i][1]);
  return PW_OK;
}

static pw_status from_csv(const char *path, const pw_csv *csv, pw_notes *notes,
                          pw_measured *measured, pw_err *err)
{
  int index[N_COLUMN];
  pw_csv_column known[N_COLUMN];
  pw_measured m = {.thickness = 0.0};
  int bands = form(csv, known);
  pw_status s = refuse_old_words(csv, err);
  if (s == PW_OK) s = pw_csv_bind(csv, known, N_COLUMN, index, notes, err);
  if (s == PW_OK) s = set_name(path, &m, err);
  if (s != PW_OK) return s;
  if (csv->n_row == 0)
    return pw_fail(err, PW_E_DATA, "rows", "%s: no rows below the header", csv->name);
  double *room = calloc(4 * csv->n_row, sizeof *room);
  if (!room) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu rows", csv->n_row);
  curves c = {csv, index, room, {0}, err};
  for (size_t k = 0; k < 3; k++)
    c.v[k] = room + (k + 1) * csv->n_row;
  s = take(&c, bands, &m);
  free(room);
  if (s == PW_OK) *measured = m;
  return s;
}

pw_status pw_spectrum_file_read(const char *path, pw_notes *notes, pw_measured *measured,
                                pw_err *err)
{
  return pw_spectrum_file_parse(path, NULL, 0, notes, measured, err);
}

pw_status pw_spectrum_file_parse(const char *name, const char *text, size_t size,
                                 pw_notes *notes, pw_measured *measured, pw_err *err)
{
  pw_csv csv = {0};
  pw_status s = pw_csv_open(name, text, size, &csv, err);
  if (s == PW_OK) s = from_csv(name, &csv, notes, measured, err);
  pw_csv_free(&csv);
  return s;
}
