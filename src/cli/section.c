/* panewright section: two-dimensional conduction through a frame section. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "frame/conduct.h"
#include "job/section_file.h"
#include "out/section_out.h"
#include "out/section_picture.h"
#include "out/units.h"
#include "panewright/glazing.h"
#include "panewright/units.h"
#include "window/moisture.h"

/* What one run holds. */
typedef struct desk {
  const char *path;
  pw_section section;
  pw_section_options o;
  pw_films films;
  int rating; /* films and temperatures of the rating procedure */
  double humidity, t_dew;
  pw_section_result result;
  double u_f, psi; /* panel method; NAN without a panel */
} desk;

static pw_status read_numbers(const cli_args *args, desk *d, pw_err *err)
{
  double t_in = d->rating ? 21.0 : 20.0, t_out = d->rating ? -18.0 : 0.0;
  double percent = 0.2, humidity = 50.0;
  const struct {
    const char *name;
    double low, high, *to;
  } option[] = {{"indoor-c", -60.0, 80.0, &t_in},
                {"outdoor-c", -60.0, 80.0, &t_out},
                {"tolerance", 0.00005, 20.0, &percent},
                {"humidity", 1.0, 100.0, &humidity},
                {"u-glass", 0.05, 20.0, &d->o.u_glass}};
  for (size_t i = 0; i < sizeof option / sizeof option[0]; i++) {
    pw_status status =
        cli_number(args, option[i].name, option[i].low, option[i].high, option[i].to, err);
    if (status != PW_OK) return status;
  }
  if (t_in == t_out)
    return pw_fail(err, PW_E_DOMAIN, "option",
                   "--indoor-c and --outdoor-c are both %g: no heat would flow", t_in);
  d->o.t_in = pw_k(t_in);
  d->o.t_out = pw_k(t_out);
  d->o.tolerance = 0.01 * percent;
  d->humidity = humidity;
  return pw_dew_point(fmax(d->o.t_in, d->o.t_out), 0.01 * humidity, &d->t_dew, err);
}

/* --films default|rating|INDOOR,REDUCED,OUTDOOR; the rating films wait for the section. */
static pw_status read_films(const cli_args *args, desk *d, pw_err *err)
{
  const char *text = cli_get(args, "films");
  d->films = pw_films_iso10077;
  if (!text || strcmp(text, "default") == 0) return PW_OK;
  if (strcmp(text, "rating") == 0) {
    d->rating = 1;
    return PW_OK;
  }
  double v[3];
  const char *at = text;
  for (int i = 0; i < 3; i++) {
    char *end = NULL;
    v[i] = strtod(at, &end);
    if (end == at || *end != (i < 2 ? ',' : '\0') || !(v[i] >= 0.0 && v[i] <= 10.0))
      return pw_fail(err, PW_E_DOMAIN, "option",
                     "--films %s: want default, rating, or three resistances "
                     "INDOOR,REDUCED,OUTDOOR from 0 to 10 m2K/W",
                     text);
    at = end + 1;
  }
  d->films = (pw_films){.outdoor = v[2], .indoor = v[0], .reduced = v[1]};
  return PW_OK;
}

static pw_status read_method(const cli_args *args, desk *d, pw_err *err)
{
  const char *text = cli_get(args, "hollows");
  d->o.tall = cli_get(args, "jamb") != NULL;
  if (!text || strcmp(text, "iso10077") == 0) return PW_OK;
  if (strcmp(text, "iso15099") != 0)
    return pw_fail(err, PW_E_DOMAIN, "option", "--hollows %s: want iso10077 or iso15099", text);
  d->o.hollow = PW_HOLLOW_ISO15099;
  return PW_OK;
}

/* Each gap of the section gets the conductance that the build-up's gap has: by EN 673 with the films
 * of ISO 10077-2, by ISO 15099 at these temperatures with those of the rating procedure. */
static pw_status set_gaps(const cli_args *args, const desk *d, pw_section *section, pw_err *err)
{
  const char *text = cli_get(args, "glass");
  if (!text) return PW_OK;
  pw_buildup buildup;
  pw_glazing *glazing = calloc(1, sizeof *glazing);
  if (!glazing) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for glazing");
  pw_unit_result unit;
  pw_status status = pw_buildup_parse(text, &buildup, err);
  if (status == PW_OK) status = pw_glazing_build(&buildup, glazing, err);
  if (status == PW_OK && d->rating) {
    pw_env env = pw_env_winter;
    env.t_in = d->o.t_in;
    env.t_out = d->o.t_out;
    status = pw_unit_solve(&glazing->unit, &env, NULL, &unit, err);
  } else if (status == PW_OK) {
    status = pw_unit_en673(&glazing->unit, &unit, err);
  }
  free(glazing);
  if (status != PW_OK) return status;
  int drawn = pw_section_gaps(section), have = (int)buildup.n_pane - 1;
  if (drawn != have)
    return pw_fail(err, PW_E_DATA, "glass",
                   "--glass %s: the build-up has %d gap%s, %s is drawn with %d%s", text, have,
                   have == 1 ? "" : "s", d->path, drawn,
                   drawn ? "" : " (rows of the material gap)");
  for (int g = 0; g < have; g++)
    pw_section_set_gap(section, g + 1, unit.gap[g].conductance);
  return PW_OK;
}

/* Spacer and filling of a package, for the rows that leave them open. */
static pw_status set_choices(const cli_args *args, const desk *d, pw_section *section,
                             pw_err *err)
{
  static const char *const spacer[PW_SPACER_COUNT] = {"metal", "stainless", "insulating"};
  const char *text = cli_get(args, "spacer");
  if (text) {
    int i = 0;
    while (i < PW_SPACER_COUNT && strcmp(text, spacer[i]) != 0)
      i++;
    if (i == PW_SPACER_COUNT)
      return pw_fail(err, PW_E_DOMAIN, "option",
                     "--spacer %s: want metal, stainless or insulating", text);
    if (!pw_section_stands(section, PW_STANDS_SPACER))
      return pw_fail(err, PW_E_DATA, "spacer",
                     "--spacer %s: %s fixes its spacer (no row spacer)", text, d->path);
    pw_status status = pw_section_set_spacer(section, (pw_spacer)i, err);
    if (status != PW_OK) return status;
  }
  text = cli_get(args, "filling");
  if (!text) return PW_OK;
  if (strcmp(text, "foam") != 0 && strcmp(text, "air") != 0)
    return pw_fail(err, PW_E_DOMAIN, "option", "--filling %s: want foam or air", text);
  if (pw_section_set_filling(section, text)) return PW_OK;
  return pw_fail(err, PW_E_DATA, "filling",
                 "--filling %s: %s fixes its filling (no row filling)", text, d->path);
}

static pw_status solve(const cli_args *args, const desk *d, pw_section *section,
                       pw_section_result *result, int field, pw_err *err)
{
  pw_section_options o = d->o;
  pw_films films = d->films;
  if (d->rating) {
    pw_frame_face face;
    pw_status status = pw_section_face(section, &face, err);
    if (status != PW_OK) return status;
    films = pw_films_rating(face, o.t_out, o.t_in);
  }
  o.films = &films;
  o.keep_field = field;
  pw_status status = set_choices(args, d, section, err);
  if (status == PW_OK) status = set_gaps(args, d, section, err);
  if (status == PW_OK) status = pw_section_solve(section, &o, result, err);
  static const char *const asked[] = {"glass", "spacer", "filling"};
  for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++)
    status = cli_ask(asked[i], status, err);
  return status;
}

/* U_f and psi: of this section when its glazing is a panel, else of --panel FILE or auto. */
static pw_status panel_method(const cli_args *args, desk *d, pw_err *err)
{
  const char *path = cli_get(args, "panel");
  d->u_f = d->result.u_panel_frame;
  d->psi = (double)NAN;
  if (!path) return PW_OK;
  pw_section panel;
  pw_status status = pw_section_read(strcmp(path, "auto") == 0 ? d->path : path,
                                     cli_get(args, "any-size") != NULL, &panel, err);
  if (status != PW_OK) return status;
  pw_section_result r = {.u_panel_frame = (double)NAN};
  if (strcmp(path, "auto") == 0) status = pw_section_panel(&panel, err);
  desk of_panel = *d;
  if (status == PW_OK) status = solve(args, &of_panel, &panel, &r, 0, err);
  pw_section_free(&panel);
  if (status != PW_OK) return status;
  if (isnan(r.u_panel_frame))
    status = pw_fail(err, PW_E_DATA, "panel",
                     "%s: its glazing is no panel (material insulation_panel at the glass end)",
                     path);
  d->u_f = r.u_panel_frame;
  d->psi = pw_section_psi(&d->result, &r);
  pw_section_result_free(&r);
  return status;
}

static pw_status draw(const desk *d, const char *path, int si, pw_err *err)
{
  const pw_section_result *r = &d->result;
  const pw_unit_set *units = pw_units(si);
  char figures[200], dew[64];
  snprintf(figures, sizeof figures,
           "L2D %.3f %s    frame U %.2f, edge U %.2f %s    f_Rsi %.2f    %.0f %s outdoors, "
           "%.0f %s indoors",
           r->l2d * (si ? 1.0 : 1.0 / (PW_U_IP * PW_FOOT)), si ? "W/mK" : "Btu/h-ft-F",
           pw_show_u(units, r->u_frame), pw_show_u(units, r->u_edge), units->u, r->f_rsi,
           pw_show_temperature(units, d->o.t_out), units->temperature,
           pw_show_temperature(units, d->o.t_in), units->temperature);
  snprintf(dew, sizeof dew, "dew point %.1f %s (indoor air %.0f %%)",
           pw_show_temperature(units, d->t_dew), units->temperature, d->humidity);
  const char *slash = strrchr(d->path, '/');
  const pw_section_caption caption = {slash ? slash + 1 : d->path, figures, d->t_dew, dew};
  return pw_section_picture(&d->section, r, &caption, si, path, err);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  desk d = {.path = args->word[0]};
  const char *plot = cli_get(args, "plot");
  pw_status status = read_films(args, &d, &err);
  if (status == PW_OK) status = read_numbers(args, &d, &err);
  if (status == PW_OK) status = read_method(args, &d, &err);
  if (status != PW_OK) {
    cli_fail(&err);
    return EXIT_USAGE;
  }
  status = pw_section_read(d.path, cli_get(args, "any-size") != NULL, &d.section, &err);
  if (status == PW_OK) status = solve(args, &d, &d.section, &d.result, plot != NULL, &err);
  if (status == PW_OK) status = panel_method(args, &d, &err);
  if (status == PW_OK && plot) status = draw(&d, plot, args->si, &err);
  const pw_section_told told = {&d.result, d.u_f, d.psi, d.humidity, d.t_dew};
  if (status == PW_OK) status = pw_section_print(&told, args->format, args->si, stdout, &err);
  int rc = status == PW_OK ? cli_finish() : cli_fail(&err);
  pw_section_result_free(&d.result);
  pw_section_free(&d.section);
  return rc;
}

static const cli_option option[] = {
    {"plot", "F", "picture (.svg, .png, .pdf): materials, heat-flow lines, isotherms"},
    {"indoor-c", "T", "indoor air, C (20; 21 with --films rating)"},
    {"outdoor-c", "T", "outdoor air, C (0; -18 with --films rating)"},
    {"films", "default|rating|RI,RR,RO", "surface resistances, m2K/W (0.13,0.20,0.04)"},
    {"tolerance", "PERCENT", "width of the bracket over the value (0.2)"},
    {"panel", "FILE|auto", "the same with a 0.035 W/mK panel for glass: gives U_f and psi"},
    {"u-glass", "U", "centre of glass for psi, W/m2K (of the layers drawn)"},
    {"glass", "BUILD-UP", "what stands for the material gap (gap1, gap2, gap3)"},
    {"spacer", "metal|stainless|insulating", "what stands for the material spacer"},
    {"filling", "foam|air", "what stands for the material filling"},
    {"humidity", "PERCENT", "of indoor air, for the dew point (50)"},
    {"hollows", "iso10077|iso15099", "air hollows by (iso10077)"},
    {"jamb", NULL, "gravity is out of the plane (matters to iso15099)"},
    {"any-size", NULL, "take the coordinates for mm, however small or large"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_section;
const cli_command cli_section = {
    "section",
    "FILE",
    "heat through a frame section drawn as rectangles",
    "FILE is CSV in mm: x0,y0,x1,y1,material,note and, if wanted, conductivity_w_mk (then any\n"
    "material name will do) and emissivity. x runs from outdoors to indoors, y from the "
    "opening\n"
    "edge to the glass; later rows paint over earlier ones; the border lets no heat through.\n"
    "Materials: those of `panewright tables section/materials`, and\n"
    "  outdoor, indoor, indoor_reduced   air with its film\n"
    "  cavity, cavity_vent, cavity_WORD  air hollow; slightly ventilated; kept apart by WORD\n"
    "  gap, gap1, gap2, gap3             gap of the --glass build-up, counted from outdoors\n"
    "  spacer, filling                   box between the panes; what is behind the insert\n"
    "  sightline                         its y0 is where the frame ends (else found)\n"
    "The value lies between two bounds: volumes from below, elements from above.",
    option,
    1,
    1,
    run};
