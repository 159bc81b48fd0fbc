#include "out/figure.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "panewright/units.h"

/* How a kind is rounded: to multiples of step, shown with that many decimals (ip, si). */
static const struct {
  const char *name, *before, *after;
  double step[2];
  int decimals[2];
} form[PW_FIGURE_COUNT] = {
    [PW_FIGURE_U] = {"u", "", "", {0.01, 0.01}, {2, 2}},
    [PW_FIGURE_UA] = {"ua", "", "", {1.0, 1.0}, {0, 0}},
    [PW_FIGURE_RATIO] = {"ratio", "", "", {0.01, 0.01}, {2, 2}},
    [PW_FIGURE_SHARE] = {"share", "", " %", {1.0, 1.0}, {0, 0}},
    [PW_FIGURE_MONEY_5] = {"money5", "$", "", {5.0, 5.0}, {0, 0}},
    [PW_FIGURE_MONEY] = {"money", "$", "", {1.0, 1.0}, {0, 0}},
    [PW_FIGURE_CENTS] = {"cents", "$", "", {0.01, 0.01}, {2, 2}},
    [PW_FIGURE_KWH] = {"kwh", "", "", {10.0, 10.0}, {0, 0}},
    [PW_FIGURE_AREA] = {"area", "", "", {0.1, 0.01}, {1, 2}},
    [PW_FIGURE_TEMPERATURE] = {"temperature", "", "", {1.0, 1.0}, {0, 0}},
    [PW_FIGURE_YEARS] = {"years", "", "", {1.0, 1.0}, {0, 0}},
    [PW_FIGURE_HOURS] = {"hours", "", "", {10.0, 10.0}, {0, 0}},
    [PW_FIGURE_MASS] = {"mass", "", "", {10.0, 10.0}, {0, 0}},
    [PW_FIGURE_PERCENT_RATE] = {"rate", "", " %", {0.1, 0.1}, {1, 1}},
    [PW_FIGURE_DB] = {"db", "", "", {1.0, 1.0}, {0, 0}},
};

static double shown(pw_figure kind, const pw_unit_set *units, double v)
{
  switch (kind) {
  case PW_FIGURE_U:
    return pw_show_u(units, v);
  case PW_FIGURE_UA:
    return pw_show_ua(units, v);
  case PW_FIGURE_SHARE:
  case PW_FIGURE_PERCENT_RATE:
    return 100.0 * v;
  case PW_FIGURE_AREA:
    return pw_show_area(units, v);
  case PW_FIGURE_TEMPERATURE:
    return pw_show_temperature(units, v);
  case PW_FIGURE_MASS:
    return units->si ? v : v / PW_POUND;
  default:
    return v;
  }
}

double pw_figure_rounded(pw_figure kind, const pw_unit_set *units, double value)
{
  double step = form[kind].step[units->si ? 1 : 0];
  return floor(shown(kind, units, value) / step + 0.5) * step;
}

/* Sets commas between thousands of the whole part of digits. */
static void commas(const char *digits, char text[32])
{
  size_t whole = strcspn(digits, "."), n = 0;
  for (size_t i = 0; digits[i] && n < 30; i++) {
    if (i > 0 && i < whole && (whole - i) % 3 == 0) text[n++] = ',';
    text[n++] = digits[i];
  }
  text[n] = '\0';
}

void pw_figure_text(pw_figure kind, const pw_unit_set *units, double value, char text[32])
{
  if (kind == PW_FIGURE_YEARS && isinf(value) && value > 0.0) {
    strcpy(text, PW_TEXT("never"));
    return;
  }
  double v = pw_figure_rounded(kind, units, value);
  if (!(fabs(v) < 1e12)) {
    strcpy(text, "-");
    return;
  }
  char digits[32], grouped[32];
  snprintf(digits, sizeof digits, "%.*f", form[kind].decimals[units->si ? 1 : 0], fabs(v));
  commas(digits, grouped);
  int negative = v < 0.0;
  snprintf(text, 32, "%s%s%.24s%s", negative ? "-" : "", form[kind].before, grouped,
           form[kind].after);
}

void pw_figure_cell(pw_grid *g, pw_figure kind, const pw_unit_set *units, double value)
{
  double v = shown(kind, units, value);
  if (kind == PW_FIGURE_SHARE)
    pw_grid_cell(g, "%.0f %%", v);
  else
    pw_grid_number(g, v, form[kind].decimals[units->si ? 1 : 0]);
}

pw_dollars pw_dollars_of(double v)
{
  pw_dollars d;
  double five = pw_figure_rounded(PW_FIGURE_MONEY_5, pw_units(0), v);
  snprintf(d.text, sizeof d.text, "%s$%.0f", five < 0.0 ? "-" : "", fabs(five));
  return d;
}

const char *pw_figure_name(pw_figure kind) { return form[kind].name; }

double pw_figure_less(pw_figure kind, const pw_unit_set *units, double value, double less)
{
  return pw_figure_rounded(kind, units, value) - pw_figure_rounded(kind, units, less);
}

static void say(const pw_html *h, char said[2 * PW_HTML_FIGURE], const pw_unit_set *units,
                pw_figure kind, double value, const char *key, va_list args)
{
  char text[32], path[PW_HTML_FIGURE];
  pw_figure_text(kind, units, value, text);
  vsnprintf(path, sizeof path, key, args);
  snprintf(said, 2 * PW_HTML_FIGURE, "%c%s" PW_HTML_PART "%s" PW_HTML_PART "%s", PW_HTML_MARK,
           form[kind].name, path, pw_say(h, text));
}

const char *pw_figure_say(const pw_html *h, pw_figure_words *words, const pw_unit_set *units,
                          pw_figure kind, double value, const char *key, ...)
{
  va_list args;
  va_start(args, key);
  say(h, words->text, units, kind, value, key, args);
  va_end(args);
  return words->text;
}

void pw_figure_put(pw_html *h, const pw_unit_set *units, pw_figure kind, double value,
                   const char *key, ...)
{
  char said[2 * PW_HTML_FIGURE];
  va_list args;
  va_start(args, key);
  say(h, said, units, kind, value, key, args);
  va_end(args);
  pw_html_put(h, "%s", said);
}
