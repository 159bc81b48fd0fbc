/* openings.csv: a row an opening, as the tape reads. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/nearest.h"
#include "base/tape.h"
#include "job/date_text.h"
#include "job/field_list.h"
#include "job/glass_word.h"
#include "job/opening_options.h"
#include "job/opening_row.h"
#include "job/room_name.h"
#include "job/survey.h"
#include "job/words.h"
#include "panewright/glazing.h"
#include "panewright/lites.h"
#include "panewright/units.h"

/* The opening and the cells that are words first. */
typedef struct row {
  pw_opening o;
  char config[16], fins_cut[16], lip_cut[16], insert[24];
  job_option_cells option;
} row;

#define SIZE_MIN (4.0 * PW_INCH)
#define SIZE_MAX (20.0 * PW_FOOT)
#define AT(member) .offset = offsetof(row, o.member)
#define READING(column, member)                                                                \
  {                                                                                            \
    .name = column, .kind = JOB_LENGTH, AT(member), .low = SIZE_MIN, .high = SIZE_MAX,         \
    .blank = ""                                                                                \
  }
#define DIAGONAL(column, member)                                                               \
  {                                                                                            \
    .name = column, .kind = JOB_LENGTH, AT(member), .low = SIZE_MIN, .high = 1.5 * SIZE_MAX,   \
    .blank = ""                                                                                \
  }
#define LENGTH(column, member, most, default_, said)                                           \
  {                                                                                            \
    .name = column, .kind = JOB_LENGTH, AT(member), .low = 0.0, .high = most,                  \
    .blank = default_, .why = said                                                             \
  }
#define TEXT(column, member, default_, said) JOB_TEXT_AT(row, column, member, default_, said)
#define FLAG(column, member, default_, said)                                                   \
  {                                                                                            \
    .name = column, .kind = JOB_FLAG, AT(member), .blank = default_, .why = said               \
  }

/* Of the room and its wall; told where sound is, so no note is made of a blank. */
#define SOUND(column, member, units, least, most)                                              \
  {                                                                                            \
    .name = column, .kind = JOB_NUMBER, AT(member), .low = least, .high = most, .blank = "",   \
    .unit = units, .n_unit = JOB_COUNT(units)                                                  \
  }

static const pw_unit_word volume[] = {{"ft3", PW_FOOT2 *PW_FOOT, 0}, {"m3", 1, 0}};
static const pw_unit_word decibel[] = {{"dB", 1, 0}};

static const pw_unit_word money[] = {{"$", 1, 0}};
#define PRICE(column, member)                                                                  \
  {                                                                                            \
    .name = column, .kind = JOB_GIVEN, AT(member), .low = 0.0, .high = 1e5, .blank = "",       \
    .unit = money, .n_unit = 1                                                                 \
  }

static const double fin_max = 6.0 * PW_INCH;

/* Places in the table of columns. */
enum { TAG, ROOM, QUANTITY, FACING, OPERATOR, WIDTH = 10, HEIGHT = 13 };

static const job_word cover[] = {{"bare", PW_COVER_BARE}, {"none", PW_COVER_BARE},
                                 {"pvc", PW_COVER_PVC},   {"vinyl", PW_COVER_PVC},
                                 {"wood", PW_COVER_WOOD}, {"foam_trim", PW_COVER_FOAM_TRIM}};

static const job_word action[] = {
    {"replace", PW_REPLACED}, {"keep", PW_STAYS}, {"leave", PW_STAYS}, {"stays", PW_STAYS}};
static const job_word conditioned[] = {{"yes", 0}, {"y", 0}, {"1", 0}, {"true", 0},
                                       {"no", 1},  {"n", 1}, {"0", 1}, {"false", 1}};
static const job_word unit_joint[] = {{"beside", PW_JOINT_BESIDE},
                                      {"over", PW_JOINT_OVER},
                                      {"above", PW_JOINT_OVER},
                                      {"transom", PW_JOINT_OVER}};

static const job_word coverings[] = {
    {"house", PW_COVERING_BLANK},   {"usual", PW_COVERING_USUAL},
    {"none", PW_COVERING_NONE},     {"blinds", PW_COVERING_BLINDS},
    {"roller", PW_COVERING_ROLLER}, {"drapes", PW_COVERING_DRAPES}};
static const job_word sash_leak[] = {{"tight", PW_SASH_TIGHT},
                                     {"usual", PW_SASH_USUAL},
                                     {"loose", PW_SASH_LOOSE},
                                     {"stuck", PW_SASH_STUCK}};

/* The table of columns; the word tables have their length elsewhere, so it is made on the stack. */
static size_t columns(job_field f[])
{
  const job_field table[] = {
      TEXT("tag", o.tag, NULL, NULL),
      TEXT("room", o.room, "", NULL),
      {.name = "quantity",
       .kind = JOB_INTEGER,
       AT(quantity),
       .low = 1,
       .high = 200,
       .blank = "1",
       .why = ""},
      {.name = "facing", .kind = JOB_BEARING, AT(facing_deg)},
      {.name = "operator",
       .kind = JOB_WORD,
       AT(operator_existing),
       .word = job_operator_word,
       .n_word = job_operator_words},
      TEXT("operator_insert", insert, "", "the same as the existing"),
      TEXT("config", config, "", NULL),
      TEXT("unit", o.unit, "", NULL),
      {.name = "unit_joint",
       .kind = JOB_WORD,
       AT(unit_joint),
       .blank = "",
       .word = unit_joint,
       .n_word = JOB_COUNT(unit_joint)},
      LENGTH("mullion_face", mullion_face, SIZE_MIN * 3.0, "", NULL),
      READING("width_bottom", width[0]),
      READING("width_middle", width[1]),
      READING("width_top", width[2]),
      READING("height_left", height[0]),
      READING("height_middle", height[1]),
      READING("height_right", height[2]),
      DIAGONAL("diagonal_1", diagonal[0]),
      DIAGONAL("diagonal_2", diagonal[1]),
      {.name = "shape",
       .kind = JOB_WORD,
       AT(shape),
       .blank = "", /* a rectangle, as of old */
       .word = job_shape_word,
       .n_word = job_shape_words},
      LENGTH("rise", rise, SIZE_MAX, "", NULL),
      LENGTH("leg_left", leg_left, SIZE_MAX, "", NULL),
      LENGTH("leg_right", leg_right, SIZE_MAX, "", NULL),
      LENGTH("peak_at", peak_at, SIZE_MAX, "", NULL),
      {.name = "existing_frame",
       .kind = JOB_WORD,
       AT(existing_frame),
       .blank = "aluminium",
       .why = "no thermal break",
       .word = job_frame_word,
       .n_word = job_frame_words},
      TEXT("existing_glass", o.existing_glass_text, "3mm clear", "single clear"),
      {.name = "glass_share",
       .kind = JOB_NUMBER,
       AT(glass_share),
       .low = 0.05,
       .high = 0.95,
       .blank = "",
       .unit = job_share,
       .n_unit = 2},
      TEXT("existing_section", o.existing_section, "", NULL),
      LENGTH("frame_face", frame_face, SIZE_MIN * 2.0, "", NULL),
      LENGTH("sash_face", sash_face, SIZE_MIN * 2.0, "", NULL),
      LENGTH("meeting_face", meeting_face, SIZE_MIN * 2.0, "", NULL),
      LENGTH("retained_face", retained_face, SIZE_MIN, "0", "nothing stays beyond the pocket"),
      {.name = "retained_cover",
       .kind = JOB_WORD,
       AT(retained_cover),
       .blank = "bare",
       .why = "",
       .word = cover,
       .n_word = JOB_COUNT(cover)},
      LENGTH("fin_width", fin_width, SIZE_MAX, "0", "no fins"),
      TEXT("fins_cut", fins_cut, "0", "fins are left"),
      LENGTH("sill_lip", sill_lip, SIZE_MAX, "0", "no lip"),
      TEXT("sill_lip_cut", lip_cut, "no", "the lip is left"),
      LENGTH("overhang_depth", overhang_depth, SIZE_MAX, "0", "no overhang"),
      LENGTH("overhang_gap", overhang_gap, SIZE_MAX, "0", "overhang at the head"),
      LENGTH("reveal_depth", reveal_depth, PW_FOOT * 3.0, "0",
             "glass in the plane of the wall"),
      LENGTH("sill_height", sill_height, SIZE_MAX, "", "unknown; the cautions ask"),
      LENGTH("drop_outside", drop_outside, 10.0 * SIZE_MAX, "", "unknown; the cautions ask"),
      FLAG("grade_floor", grade_floor, "no", "escape wants 5.7 ft2"),
      {.name = "use",
       .kind = JOB_WORD,
       AT(use),
       .blank = "other", /* what it is taken for is noted by default_use */
       .word = job_use_word,
       .n_word = job_use_words},
      FLAG("sidelite", sidelite, "", NULL),
      LENGTH("near_door", near_door, 5.0 * SIZE_MAX, "", "not near one"),
      LENGTH("near_water", near_water, 5.0 * SIZE_MAX, "", "not near a tub or shower"),
      LENGTH("near_walk", near_walk, 5.0 * SIZE_MAX, "", "not near a walk"),
      FLAG("screen", screen, "no", ""),
      {.name = "shade",
       .kind = JOB_NUMBER,
       AT(shade_factor),
       .low = 0.0,
       .high = 1.0,
       .blank = "0",
       .why = "no trees or walls before it",
       .unit = job_share,
       .n_unit = 2},
      {.name = "action",
       .kind = JOB_WORD,
       AT(standing),
       .blank = "replace",
       .word = action,
       .n_word = JOB_COUNT(action)},
      {.name = "phase",
       .kind = JOB_INTEGER,
       AT(phase),
       .low = 1,
       .high = PW_PHASES_MAX,
       .blank = ""},
      TEXT("package", o.package, "", NULL),
      TEXT("glass", o.glass_text, "", NULL),
      {.name = "conditioned",
       .kind = JOB_WORD,
       AT(unconditioned),
       .blank = "yes",
       .word = conditioned,
       .n_word = JOB_COUNT(conditioned)},
      TEXT("dwelling", o.dwelling, "", NULL),
      SOUND("room_volume", room_volume, volume, 2.0, 2000.0),
      SOUND("wall_rw", wall_rw, decibel, 15.0, 80.0),
      SOUND("vent_dne", vent_dne, decibel, 10.0, 80.0),
      {.name = "coverings",
       .kind = JOB_WORD,
       AT(covering),
       .blank = "house",
       .word = coverings,
       .n_word = JOB_COUNT(coverings)},
      {.name = "sash_leak",
       .kind = JOB_WORD,
       AT(sash_leak),
       .blank = "",
       .word = sash_leak,
       .n_word = JOB_COUNT(sash_leak)},
      PRICE("price", price),
      PRICE("price_options", price_options),
      TEXT("official_word", o.official_word, "", NULL),
      TEXT("note", o.note, "", NULL),
  };
  memcpy(f, table, sizeof table);
  return JOB_COUNT(table) + job_option_columns(f + JOB_COUNT(table), offsetof(row, o.option),
                                               offsetof(row, option));
}

static int column_at(const job_field f[], size_t n, const int index[], const char *name)
{
  for (size_t i = 0; i < n; i++)
    if (strcmp(f[i].name, name) == 0) return index[i];
  return -1;
}

static pw_status bad_cell(const pw_csv *csv, size_t r, const int index[], const job_field f[],
                          size_t n, const char *column, const char *tag, const char *text,
                          pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[r + 1],
                    column_at(f, n, index, column) + 1, "%s %s: %s", tag, column, text);
}

/* "0", "1", "2" or "cannot"; 0 when it is none of these. */
static int read_fins_cut(row *w)
{
  static const job_word word[] = {{"0", 0},    {"no", 0},    {"1", 1},
                                  {"2", 2},    {"yes", 2},   {"both", 2},
                                  {"true", 2}, {"false", 0}, {"cannot", 3}};
  w->fins_cut[strcspn(w->fins_cut, ".")] = '\0'; /* a spreadsheet may say 2.00 */
  int meaning = job_word_find(word, JOB_COUNT(word), w->fins_cut, NULL);
  if (meaning < 0) return 0;
  w->o.fins_stay = meaning == 3;
  w->o.fins_cut = meaning == 3 ? 0 : meaning;
  return 1;
}

static int read_lip_cut(row *w)
{
  static const job_word word[] = {{"no", 0}, {"n", 0},    {"0", 0},     {"yes", 1},   {"y", 1},
                                  {"1", 1},  {"true", 1}, {"false", 0}, {"cannot", 2}};
  int meaning = job_word_find(word, JOB_COUNT(word), w->lip_cut, NULL);
  if (meaning < 0) return 0;
  w->o.lip_stay = meaning == 2;
  w->o.sill_lip_cut = meaning == 1;
  return 1;
}

/* Faces of the existing window that the job does not give; said where they count in this kind. */
static void default_faces(pw_opening *o, const pw_opening_face face[PW_OPENING_FACES],
                          const pw_csv *csv, size_t r, pw_notes *notes)
{
  o->frame_face = face[PW_FACE_FRAME].width;
  o->sash_face = face[PW_FACE_SASH].width;
  o->meeting_face = face[PW_FACE_MEETING].width;
  for (size_t i = 0; i < PW_OPENING_FACES; i++) {
    char tape[24], value[64];
    if (face[i].given || !face[i].used) continue;
    pw_tape_text(face[i].width, 16, tape, sizeof tape);
    snprintf(value, sizeof value, "%s in (usual old sight line)", tape);
    pw_notes_default(notes, csv->name, csv->line[r + 1], face[i].name, o->tag, value);
  }
}

/* A use that the job does not give: what the room's name says of sleeping. */
static void default_use(pw_opening *o, const pw_csv *csv, size_t r, pw_notes *notes)
{
  static const char *const taken[] = {
      [JOB_ROOM_OTHER] = "other (no sleeping room)",
      [JOB_ROOM_SLEEPS] = "bedroom (so the room's name reads; use says otherwise)",
      [JOB_ROOM_ASKS] = "other; the room's name may be of a sleeping room, the cautions ask"};
  job_room room = job_room_read(o->room);
  if (room == JOB_ROOM_SLEEPS) o->use = PW_USE_BEDROOM;
  o->use_by_room = room == JOB_ROOM_SLEEPS;
  o->use_asks = room == JOB_ROOM_ASKS;
  pw_notes_default(notes, csv->name, csv->line[r + 1], "use", o->tag, taken[room]);
}

/* What takes more than one cell to know. */
static pw_status finish_row(row *w, const pw_csv *csv, size_t r, const int index[],
                            const job_field f[], size_t n, pw_notes *notes, pw_err *err)
{
  pw_opening *o = &w->o;
  pw_err why = {0};
  char text[160];
  if (!job_opening_config(w->config, csv, r, o, notes))
    return bad_cell(
        csv, r, index, f, n, "config", o->tag,
        "want a letter a lite, X moves, O fixed: XO, OX, XX, XOX, XOOX; one must move", err);
  o->operator_insert = o->operator_existing;
  if (w->insert[0]) {
    const char *near = NULL;
    int kind = job_word_find(job_operator_word, job_operator_words, w->insert, &near);
    snprintf(text, sizeof text, "'%s' is not known%s%s", w->insert,
             near ? "; did you mean " : "",
             near ? near : "; want fixed, slider, single_hung ...");
    if (kind < 0) return bad_cell(csv, r, index, f, n, "operator_insert", o->tag, text, err);
    o->operator_insert = (pw_operator)kind;
  }
  if (o->operator_insert == PW_JALOUSIE)
    return bad_cell(csv, r, index, f, n, w->insert[0] ? "operator_insert" : "operator", o->tag,
                    "a jalousie is not made as an insert; give operator_insert", err);
  if (!read_fins_cut(w))
    return bad_cell(csv, r, index, f, n, "fins_cut", o->tag, "want 0, 1, 2 or cannot", err);
  if (!read_lip_cut(w))
    return bad_cell(csv, r, index, f, n, "sill_lip_cut", o->tag, "want yes, no or cannot", err);
  if (o->sidelite && (o->operator_existing != PW_FIXED || o->operator_insert != PW_FIXED))
    return bad_cell(
        csv, r, index, f, n, "sidelite", o->tag,
        "a sidelite is fixed glass beside a door; want operator fixed, or leave it blank", err);
  if (o->sidelite && !pw_is_given(o->near_door)) o->near_door = 0.0;
  const char *wrong = job_opening_shape_wrong(o, &why);
  if (wrong) return bad_cell(csv, r, index, f, n, wrong, o->tag, why.text, err);
  pw_opening_face face[PW_OPENING_FACES];
  pw_opening_faces(o, face);
  for (size_t i = 0; i < PW_OPENING_FACES; i++)
    if (face[i].used && face[i].width == 0.0)
      return bad_cell(csv, r, index, f, n, face[i].name, o->tag,
                      "0 is no face; leave it blank for the usual one", err);
  default_faces(o, face, csv, r, notes);
  if (!pw_csv_at(csv, r, column_at(f, n, index, "use"))[0]) default_use(o, csv, r, notes);
  job_glass_word_take(o->existing_glass_text, sizeof o->existing_glass_text, csv->name,
                      csv->line[r + 1], o->tag, notes);
  if (pw_buildup_parse(o->existing_glass_text, &o->existing_glass, &why) != PW_OK)
    return bad_cell(csv, r, index, f, n, "existing_glass", o->tag, why.text, err);
  o->package_column = column_at(f, n, index, "package") + 1;
  if (o->glass_text[0] && pw_buildup_parse(o->glass_text, &o->glass, &why) != PW_OK)
    return bad_cell(csv, r, index, f, n, "glass", o->tag, why.text, err);
  for (int i = 0; i < 3; i++)
    if (o->width[i] > 0.0 && 2.0 * o->fin_width >= o->width[i])
      return bad_cell(csv, r, index, f, n, "fin_width", o->tag,
                      "two fins of that width are wider than the opening", err);
  if (o->fin_width > fin_max)
    return bad_cell(csv, r, index, f, n, "fin_width", o->tag, "want at most 6 in", err);
  if (o->sill_lip > fin_max)
    return bad_cell(csv, r, index, f, n, "sill_lip", o->tag, "want at most 6 in", err);
  if (o->official_word[0] && !job_official_word(o->official_word))
    return bad_cell(csv, r, index, f, n, "official_word", o->tag, job_official_word_wanted,
                    err);
  o->line = csv->line[r + 1];
  const char *column = "";
  o->option.tint_column = column_at(f, n, index, "tint") + 1;
  o->option.pattern_column = column_at(f, n, index, "pattern") + 1;
  o->option.grilles_column = column_at(f, n, index, "grilles") + 1;
  if (job_options_finish(&w->option, o, csv->name, o->line, notes, &column, &why) != PW_OK)
    return bad_cell(csv, r, index, f, n, column, o->tag, why.text, err);
  return PW_OK;
}

static pw_status same_tag(const pw_csv *csv, size_t r, const pw_opening o[], size_t n,
                          const char *tag, pw_err *err)
{
  for (size_t i = 0; i < n; i++)
    if (strcmp(o[i].tag, tag) == 0)
      return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[r + 1], 1,
                        "the tag %s stands already in line %d; each opening needs its own", tag,
                        o[i].line);
  return PW_OK;
}

/* A tag that a spreadsheet has turned: 1-2 into 2-Jan, 1E2 into 1.00E+02. */
static void turned_tag(const pw_csv *csv, size_t r, const char *tag, pw_notes *notes)
{
  int over, under;
  size_t n = strspn(tag, "0123456789.");
  if ((strpbrk(tag, "-/") && job_date_turned(tag, &over, &under)) ||
      (n > 0 && (tag[n] == 'E' || tag[n] == 'e') && tag[n + 1] == '+'))
    pw_notes_warn(notes, csv->name, csv->line[r + 1],
                  "the tag '%s' looks like one that a spreadsheet has turned; make the column "
                  "text and type it again",
                  tag);
}

static pw_status need_sizes(const pw_csv *csv, const int index[], pw_err *err)
{
  static const struct {
    int first;
    const char *what;
  } side[] = {{WIDTH, "width_bottom, width_middle or width_top"},
              {HEIGHT, "height_left, height_middle or height_right"}};
  for (int s = 0; s < 2; s++) {
    const int *i = &index[side[s].first];
    if (i[0] < 0 && i[1] < 0 && i[2] < 0)
      return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], 0,
                        "the header has no column %s", side[s].what);
  }
  return PW_OK;
}

/* dwelling: whose rows alone are read; "" all. */
static pw_status read_rows(const pw_csv *csv, const char *dwelling, pw_opening o[],
                           size_t *n_opening, pw_notes *notes, pw_err *err)
{
  job_field f[96];
  int index[96];
  size_t n = columns(f);
  pw_status status = job_fields_bind(f, n, csv, index, notes, err);
  if (status == PW_OK) status = need_sizes(csv, index, err);
  for (size_t r = 0; r < csv->n_row && status == PW_OK; r++) {
    row w = {.option.bar = -1.0};
    pw_opening_init(&w.o);
    const char *tag = pw_csv_at(csv, r, index[TAG]);
    if (dwelling[0] &&
        pw_edit_distance(dwelling, pw_csv_at(csv, r, column_at(f, n, index, "dwelling"))) != 0)
      continue;
    status = same_tag(csv, r, o, *n_opening, tag, err);
    if (status == PW_OK) status = job_row_read(f, n, csv, r, index, tag, &w, notes, err);
    if (status != PW_OK) break;
    turned_tag(csv, r, tag, notes);
    if (!job_opening_measured(&w.o)) {
      pw_notes_warn(notes, csv->name, csv->line[r + 1],
                    "%s has no width or no height yet and was left out of everything", tag);
      continue;
    }
    status = finish_row(&w, csv, r, index, f, n, notes, err);
    if (status == PW_OK) o[(*n_opening)++] = w.o;
  }
  return status;
}

pw_status pw_openings_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err)
{
  pw_csv csv;
  pw_status status = pw_csv_read(path, &csv, err);
  if (status != PW_OK) return status;
  size_t n = 0;
  csv.is_order = 1;
  pw_opening *o = calloc(csv.n_row ? csv.n_row : 1, sizeof *o);
  if (!o)
    status = pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", csv.name);
  else
    status = read_rows(&csv, job->dwelling, o, &n, notes, err);
  if (status == PW_OK) status = job_openings_join(csv.name, o, n, notes, err);
  if (status == PW_OK && n == 0)
    status =
        pw_fail_at(err, PW_E_DATA, csv.name, csv.line[0], 0, "no measured opening in the file");
  pw_csv_free(&csv);
  if (status != PW_OK) {
    free(o);
    return status;
  }
  free(job->opening);
  job->opening = o;
  job->n_opening = n;
  return PW_OK;
}

size_t job_openings_fields(job_field f[]) { return columns(f); }
