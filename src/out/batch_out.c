#include "out/batch_out.h"

#include "base/text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "out/grid.h"

void pw_lines_add(pw_lines *l, const char *text, size_t n)
{
  if (l->n + n > l->room) {
    size_t room = l->room ? l->room : 65536;
    while (room < l->n + n)
      room *= 2;
    char *grown = realloc(l->text, room);
    if (!grown) {
      l->lost = 1;
      return;
    }
    l->text = grown;
    l->room = room;
  }
  memcpy(l->text + l->n, text, n);
  l->n += n;
}

void pw_lines_free(pw_lines *lines)
{
  if (!lines) return;
  free(lines->text);
  *lines = (pw_lines){0};
}

/* A number with that many decimals, rounded half away from zero; several times as fast as printf,
 * and the same in every locale. */
static size_t put_number(char *to, double v, int decimals)
{
  static const double scale[] = {1.0, 10.0, 100.0, 1e3, 1e4, 1e5};
  char digit[32];
  size_t n = 0, k = 0;
  if (!isfinite(v)) return 0;
  double scaled = fabs(v) * scale[decimals] + 0.5;
  if (!(scaled < 9e15)) return (size_t)sprintf(to, "%.*f", decimals, v);
  unsigned long long whole = (unsigned long long)scaled;
  if (v < 0.0 && whole > 0) to[n++] = '-';
  do {
    digit[k++] = (char)('0' + whole % 10);
    whole /= 10;
    if (k == (size_t)decimals) digit[k++] = '.';
  } while (whole > 0 || k <= (size_t)decimals + (decimals > 0));
  while (k > 0)
    to[n++] = digit[--k];
  return n;
}

enum { CELL = 340, LINE = 4096 };

static const char header[] =
    "id,place_away_km,opening_m2,order_width_mm,order_height_mm,glass_kept,light_kept,"
    "existing_u_w_m2k,existing_shgc,existing_vt,existing_sweat_rh,u_w_m2k,shgc,vt,sweat_rh,"
    "existing_heating_kwh,existing_cooling_kwh,heating_kwh,cooling_kwh,heating_saved_kwh,"
    "cooling_saved_kwh,heating_saved_low_kwh,heating_saved_high_kwh,cooling_saved_low_kwh,"
    "cooling_saved_high_kwh,energy\n";

void pw_batch_print_header(pw_lines *lines) { pw_lines_add(lines, header, sizeof header - 1); }

void pw_batch_print(pw_lines *lines, const char *id, double away_km, const pw_batch_figures *f)
{
  const pw_batch_window *now = &f->existing, *then = &f->insert;
  const pw_rating *a = &now->window.rating, *b = &then->window.rating;
  const struct {
    double v;
    int decimals;
  } cell[] = {{away_km, 0},
              {f->fit.opening_area, 4},
              {f->fit.order_width * 1e3, 1},
              {f->fit.order_height * 1e3, 1},
              {then->window.glass_kept, 4},
              {then->window.light_kept, 4},
              {a->u, 4},
              {a->shgc, 4},
              {a->vt, 4},
              {now->sweat_rh, 3},
              {b->u, 4},
              {b->shgc, 4},
              {b->vt, 4},
              {then->sweat_rh, 3},
              {now->alone.heating_kwh, 2},
              {now->alone.cooling_kwh, 2},
              {then->alone.heating_kwh, 2},
              {then->alone.cooling_kwh, 2},
              {f->saved.heating_kwh, 2},
              {f->saved.cooling_kwh, 2},
              {f->low.heating_kwh, 2},
              {f->high.heating_kwh, 2},
              {f->low.cooling_kwh, 2},
              {f->high.cooling_kwh, 2}};
  char line[LINE];
  size_t n = pw_csv_quote(id, line);
  for (size_t i = 0; i < sizeof cell / sizeof cell[0]; i++) {
    line[n++] = ',';
    n += put_number(line + n, cell[i].v, cell[i].decimals);
  }
  line[n++] = ',';
  n += pw_csv_quote(f->energy, line + n);
  line[n++] = '\n';
  pw_lines_add(lines, line, n);
}

void pw_reject_print_header(pw_lines *lines)
{
  static const char words[] = "line,column,id,reason\n";
  pw_lines_add(lines, words, sizeof words - 1);
}

/* An id that was refused may be long and hold anything: it is cut, and kept in one line. */
static size_t put_words(char *to, const char *text)
{
  char cut[CELL + 4];
  snprintf(cut, sizeof cut, "%s", text);
  pw_text_cut(cut, CELL);
  pw_text_clean(cut);
  return pw_csv_quote(cut, to);
}

void pw_reject_print(pw_lines *lines, long line, int column, const char *id, const char *reason)
{
  char text[LINE];
  size_t n = (size_t)snprintf(text, sizeof text, "%ld,", line);
  if (column > 0) n += (size_t)snprintf(text + n, sizeof text - n, "%d", column);
  text[n++] = ',';
  n += put_words(text + n, id);
  text[n++] = ',';
  n += put_words(text + n, reason);
  text[n++] = '\n';
  pw_lines_add(lines, text, n);
}
