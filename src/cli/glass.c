/* panewright glass: one glass unit, its heat and its light. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "job/spectrum_file.h"
#include "out/glass_report.h"
#include "panewright/glazing.h"
#include "panewright/units.h"
#include "window/glass_sound.h"

enum { OWN_MAX = 8 };

/* Films of EN 673 for the free balance: 25 outdoors less about 3.9 radiation, 3.6 indoors. */
static const pw_env en673_env = {
    .t_out = 273.15, .t_in = 293.15, .h_c_out = 21.1, .h_c_in = 3.6};

static pw_status usage(pw_err *err, const char *text)
{
  return pw_fail(err, PW_E_DOMAIN, "usage", "%s", text);
}

/* --conditions, then what is stated on top of them. */
static pw_status read_env(const cli_args *args, pw_glass_report *r, pw_err *err)
{
  static const char *const stated[] = {"outdoor-c", "indoor-c", "wind-m-s", "sun-w-m2"};
  const char *method = cli_get(args, "method"), *name = cli_get(args, "conditions");
  r->en673 = method && strcmp(method, "en673") == 0;
  if (method && !r->en673 && strcmp(method, "iso15099") != 0)
    return usage(err, "--method wants iso15099 or en673");
  if (!name) name = r->en673 ? "en673" : "winter";
  if (strcmp(name, "winter") == 0)
    r->env = pw_env_winter;
  else if (strcmp(name, "summer") == 0)
    r->env = pw_env_summer;
  else if (strcmp(name, "en673") == 0)
    r->env = en673_env;
  else
    return usage(err, "--conditions wants winter, summer or en673");
  r->conditions = name;
  int any = 0;
  for (size_t i = 0; i < 4; i++)
    any = any || cli_get(args, stated[i]);
  if (r->en673 && (any || strcmp(name, "en673") != 0 || cli_get(args, "height-m")))
    return usage(err, "--method en673 has conditions and a height of its own: leave them out");
  double out = pw_c(r->env.t_out), in = pw_c(r->env.t_in);
  pw_status s = cli_number(args, "outdoor-c", -60.0, 60.0, &out, err);
  if (s == PW_OK) s = cli_number(args, "indoor-c", -20.0, 60.0, &in, err);
  if (s == PW_OK) s = cli_number(args, "wind-m-s", 0.0, 50.0, &r->env.wind, err);
  if (s == PW_OK) s = cli_number(args, "sun-w-m2", 0.0, 1500.0, &r->env.sun, err);
  if (s != PW_OK) return s;
  if (cli_get(args, "wind-m-s")) r->env.h_c_out = 0.0; /* 4 + 4 v takes over */
  r->env.t_out = pw_k(out);
  r->env.t_in = pw_k(in);
  if (any) r->conditions = "stated";
  r->sun_env = r->env.sun > 0.0 ? r->env : pw_env_summer;
  return PW_OK;
}

static pw_status read_pol(const cli_args *args, pw_pol *pol, pw_err *err)
{
  const char *text = cli_get(args, "polarisation");
  if (text && strcmp(text, "mean") != 0 && strcmp(text, "apart") != 0)
    return usage(err, "--polarisation wants mean or apart");
  *pol = text && text[0] == 'a' ? PW_POL_APART : PW_POL_MEAN;
  return PW_OK;
}

/* --pane FILE[,FILE]: measured panes, named by their files. */
static pw_status read_own(const cli_args *args, pw_measured own[OWN_MAX], size_t *n,
                          pw_err *err)
{
  const char *list = cli_get(args, "pane");
  pw_notes notes = {0};
  pw_status s = PW_OK;
  *n = 0;
  while (s == PW_OK && list && *list) {
    char path[1024];
    size_t length = strcspn(list, ",");
    if (*n == OWN_MAX || length == 0 || length >= sizeof path) {
      s = usage(err, "--pane wants up to 8 file names, parted by commas");
      break;
    }
    memcpy(path, list, length);
    path[length] = '\0';
    s = pw_spectrum_file_read(path, &notes, &own[*n], err);
    ++*n;
    list += length + (list[length] == ',');
  }
  for (size_t i = 0; s == PW_OK && i < notes.n; i++) {
    char line[400];
    pw_notes_line(&notes.note[i], line, sizeof line);
    fprintf(stderr, "panewright glass: %s\n", line);
  }
  pw_notes_free(&notes);
  return s;
}

static void note(pw_glass_report *r, const char *text)
{
  if (r->n_note < PW_GLASS_NOTES) snprintf(r->note[r->n_note++], sizeof r->note[0], "%s", text);
}

/* What a reader of the figures must know. */
static void notes(pw_glass_report *r)
{
  int plain = 0, exposed = 0, whole = 0;
  size_t n = r->buildup.n_pane;
  for (size_t i = 0; i < n; i++)
    for (size_t side = 0; side < 2; side++) {
      const pw_buildup_pane *p = &r->buildup.pane[i];
      int outside = (i == 0 && side == 0) || (i + 1 == n && side == 1);
      plain = plain || (p->emit[side] > 0.0 && p->emit[side] < 0.5 && !p->coating[side][0] &&
                        r->layers.layer[i].fresnel);
      exposed = exposed || (outside && strncmp(p->coating[side], "ag", 2) == 0);
      whole = whole || (side == 0 && strcmp(p->kind, "frosted") == 0);
    }
  if (plain)
    note(r, "a low emissivity without a coating's name changes heat only: the light is that of "
            "uncoated glass (name a coating, such as coat ag1@2, for both)");
  if (exposed)
    note(r,
         "a silver coating on a surface open to the air does not last; it belongs in a sealed "
         "gap");
  if (whole) note(r, "frosted: light counted whole, straight and scattered together");
  if (r->pol == PW_POL_APART)
    note(r, "polarisation carried apart: truer by theory, above the published tables at slant "
            "angles");
  if (r->no_balance)
    note(r, "SF6: U and g by EN 673 and EN 410; SHGC and temperatures in the sun are not "
            "computed, for ISO 15099 has no coefficients for this gas");
  if (r->glazing.unit.height > 0.0) note(r, "height as stated; ratings take 1 m");
  note(r, "computed, centre of glass; no certified rating");
}

/* ISO 15099 has no coefficients for SF6: what rests on its balance stays unknown. */
static int has_sf6(const pw_buildup *b)
{
  for (size_t i = 0; i + 1 < b->n_pane; i++)
    if (b->gap[i].mix.share[PW_SF6] > 0.0) return 1;
  return 0;
}

static void without_balance(pw_glass_report *r)
{
  for (size_t a = 0; a < PW_ANGLES; a++)
    r->glazing.shgc[a] = (double)NAN;
  r->shgc = (double)NAN;
  for (size_t i = 0; i < 2 * PW_PANES_MAX; i++)
    r->sunny.t[i] = (double)NAN;
  for (size_t i = 0; i + 1 < PW_PANES_MAX; i++)
    r->sunny.gap[i] = (pw_gap_result){(double)NAN, (double)NAN, (double)NAN, (double)NAN};
}

static pw_status sun_table(pw_glass_report *r, pw_err *err)
{
  pw_status s = pw_glazing_g_en410(&r->glazing, 0, &r->g_en410, err);
  if (s == PW_OK && r->no_balance) {
    without_balance(r);
    return PW_OK;
  }
  for (size_t a = 0; s == PW_OK && a < PW_ANGLES; a++)
    s = pw_glazing_shgc(&r->glazing, &r->sun_env, a, &r->glazing.shgc[a], err);
  if (s == PW_OK)
    s = pw_unit_shgc(&r->glazing.unit, &r->sun_env, r->light.tau_e, r->light.absorbed, &r->shgc,
                     err);
  if (s == PW_OK)
    s = pw_unit_solve(&r->glazing.unit, &r->sun_env, r->light.absorbed, &r->sunny, err);
  return s;
}

/* Light and, where ISO 15099 can, the heat of the build-up. */
static pw_status build(pw_glass_report *r, const pw_measured own[], size_t n_own, pw_err *err)
{
  pw_status s = pw_glazing_optics(&r->buildup, own, n_own, PW_POL_MEAN, &r->glazing.unit,
                                  &r->glazing.light, err);
  r->no_balance = r->en673 && has_sf6(&r->buildup);
  return s == PW_OK && !r->no_balance ? pw_glazing_heat(&r->glazing, err) : s;
}

static pw_status sound(pw_glass_report *r, pw_err *err)
{
  pw_thirds spectrum;
  pw_status s = pw_glass_sound(&r->buildup, NULL, 0.5, &spectrum, NULL, err);
  return s == PW_OK ? pw_single_number_of(&spectrum, &r->sound, err) : s;
}

static pw_status fill(const cli_args *args, pw_glass_report *r, pw_err *err)
{
  pw_measured own[OWN_MAX] = {{.thickness = 0.0}};
  const char *name[OWN_MAX];
  size_t n_own = 0;
  pw_status s = read_env(args, r, err);
  if (s == PW_OK) s = read_pol(args, &r->pol, err);
  if (s == PW_OK) s = cli_number(args, "angle", 0.0, 90.0, &r->angle_deg, err);
  double height = 0.0;
  if (s == PW_OK) s = cli_number(args, "height-m", 0.05, 20.0, &height, err);
  if (s != PW_OK) err->field = "usage";
  if (s == PW_OK) s = read_own(args, own, &n_own, err);
  for (size_t i = 0; i < n_own; i++)
    name[i] = own[i].name;
  if (s == PW_OK) s = pw_buildup_parse_own(args->word[0], name, n_own, &r->buildup, err);
  if (s == PW_OK) s = pw_buildup_print(&r->buildup, r->text, sizeof r->text, err);
  if (s == PW_OK) s = pw_layers_init(&r->buildup, own, n_own, &r->layers, err);
  if (s == PW_OK) s = build(r, own, n_own, err);
  if (s == PW_OK && r->pol == PW_POL_APART)
    s = pw_glazing_optics(&r->buildup, own, n_own, r->pol, &r->glazing.unit, &r->glazing.light,
                          err);
  if (s == PW_OK)
    s = pw_light_at(r->layers.list, r->layers.n, &r->layers.spectrum, r->angle_deg, r->pol,
                    &r->light, err);
  if (s != PW_OK) return s;
  r->glazing.unit.height = height;
  s = sun_table(r, err);
  if (s == PW_OK && r->en673) s = pw_unit_en673(&r->glazing.unit, &r->now, err);
  if (s == PW_OK && !r->en673)
    s = pw_unit_solve(&r->glazing.unit, &r->env, r->light.absorbed, &r->now, err);
  r->u = r->now.u;
  if (s == PW_OK) s = sound(r, err);
  if (s == PW_OK) notes(r);
  return s;
}

static int fail(const pw_err *err)
{
  int code = cli_fail(err);
  return err->field && (strcmp(err->field, "usage") == 0 || strcmp(err->field, "panel") == 0)
             ? EXIT_USAGE
             : code;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_glass_report *r = calloc(1, sizeof *r);
  if (!r) {
    pw_fail(&err, PW_E_NOMEM, NULL, "no memory");
    return cli_fail(&err);
  }
  const char *plot = cli_get(args, "plot"), *panel = cli_get(args, "picture");
  pw_status s = fill(args, r, &err);
  if (s == PW_OK && plot && r->no_balance && strcmp(panel ? panel : "all", "spectral") != 0)
    s = usage(&err, "with SF6 there is no SHGC to draw: want --picture spectral");
  if (s == PW_OK && plot) s = pw_glass_picture(r, plot, panel ? panel : "all", args->si, &err);
  if (s == PW_OK) {
    if (args->format == PW_JSON)
      s = pw_glass_json(r, stdout, &err);
    else if (args->format == PW_CSV)
      s = pw_glass_csv(r, stdout, &err);
    else
      s = pw_glass_text(r, args->si, stdout, &err);
  }
  free(r);
  return s == PW_OK ? cli_finish() : fail(&err);
}

static const cli_option option[] = {
    {"method", "iso15099|en673", "how U is worked out (iso15099)"},
    {"conditions", "winter|summer|en673", "of U and of the first temperatures (winter)"},
    {"outdoor-c", "C", "outdoor temperature instead"},
    {"indoor-c", "C", "indoor temperature instead"},
    {"wind-m-s", "V", "wind instead; outdoor convection 4 + 4 V"},
    {"sun-w-m2", "I", "sun on the glass instead; SHGC is then under these conditions"},
    {"height-m", "H", "height of the unit (1)"},
    {"angle", "DEG", "angle of incidence of SHGC, VT and absorbed sun (0)"},
    {"polarisation", "mean|apart", "s and p averaged a pane, or carried apart (mean)"},
    {"pane", "FILE[,FILE]", "measured panes (spectra or broad-band row), named by their files"},
    {"plot", "FILE", "picture, .svg, .png or .pdf"},
    {"picture", "WHICH", "all, spectral, angular or profile (all)"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_glass;
const cli_command cli_glass = {
    "glass",
    "'BUILD-UP'",
    "one glass unit: U, SHGC, light by angle, temperatures, colour",
    "The build-up reads outdoors to indoors, parts apart by '/':\n"
    "  3mm clear / 12.7mm argon 90% / 3mm clear coat ag2@3\n"
    "Glass: clear, lowiron, bronze, gray, green, float, or another pane of `panewright tables\n"
    "panes`. Coatings: pyr20, pyr15 (hard), ag1_high, ag1, ag2, ag3 (silver) at a surface "
    "number,\n"
    "1 outdoors. emit E@N states an emissivity: heat only.\n"
    "A measured pane is a CSV of wavelength_nm,through,back_out,back_in, or one row of\n"
    "sun_through,sun_back_out,sun_back_in,light_through,light_back_out,light_back_in (and "
    "uv_through);\n"
    "shares of 1, out is outdoors; mine.csv is `6mm mine`. A coated one also needs\n"
    "emissivity_out or emissivity_in, rows from 5500 to 25000 nm, or emit E@N.\n"
    "U is for winter rating conditions, SHGC for summer ones, unless stated otherwise.",
    option,
    1,
    1,
    run};
