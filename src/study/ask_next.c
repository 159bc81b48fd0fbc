#include "study/ask_next.h"

#include <math.h>

#include "study/range_impl.h"

/* What can be asked, and where it goes; an input without a row is of models, weather or the tape. */
static const struct {
  const char *question, *where;
} asked[IN_COUNT] = {
    [IN_FRAME_U_OLD] = {"a drawing of the old frame's section",
                        "openings.csv: existing_section"},
    [IN_FRAME_U_NEW] = {"the section drawings of the insert, or its label",
                        "frame_lines.csv: section_sill ..., packages.csv: label_u"},
    [IN_SIGHT_OLD] = {"the old sight lines, by tape", "openings.csv: frame_face, sash_face"},
    [IN_SHADE] = {"trees and walls before each window", "openings.csv: shade"},
    [IN_COVER_CLOSED] = {"drapes and blinds: which windows have them, how they stand",
                         "job.csv, openings.csv: coverings"},
    [IN_AIR] = {"a blower-door test of the house", "job.csv: cfm50"},
    [IN_UA] = {"insulation of attic, walls and floor",
               "job.csv: roof, wall, floor, envelope_ua"},
    [IN_HEAT_SET] = {"where the heating is set by day", "job.csv: heat_set"},
    [IN_SETBACK] = {"how far the heating goes back at night", "job.csv: setback"},
    [IN_COOL_SET] = {"where the cooling is set", "job.csv: cool_set"},
    [IN_GAIN] = {"people and plugs: electricity of a mild month", "job.csv: internal_gain"},
    [IN_FLOOR] = {"the heated floor area", "job.csv: floor_area"},
    [IN_CEILING] = {"the ceiling height", "job.csv: ceiling_height"},
    [IN_HEAT_EFFICIENCY] = {"the plate of the heating", "job.csv: heating_efficiency"},
    [IN_COOL_COP] = {"the plate of the cooling", "job.csv: cooling_efficiency"},
    [IN_DUCT] = {"ducts: where they run, how tight", "job.csv: duct_efficiency"},
    [IN_PRICE_HEAT] = {"the price of heating energy, off a bill", "job.csv: price_gas, ..."},
    [IN_PRICE_COOL] = {"the price of electricity, off a bill", "job.csv: price_electricity"},
};

/* What was measured or stands on a label is known; what the job only states can be read off or measured. */
static int can_be_asked(const pw_range_input *in)
{
  return asked[in->id].question && in->given.origin != PW_ORIGIN_MEASURED &&
         in->given.origin != PW_ORIGIN_LABEL && in->spread.shape != PW_SHAPE_FIXED;
}

/* The night set-back goes first where it moves the answer: it is asked by a word, and nothing else shows it. */
static double place(const pw_range *range, const pw_ask *a)
{
  return a->narrows + (range->input[a->input].id == IN_SETBACK ? 1.0 : 0.0);
}

size_t pw_ask_next(const pw_range *range, size_t package, pw_ask ask[PW_ASK_NEXT])
{
  static const double least = 0.01;
  size_t n = 0;
  for (size_t i = 0; i < range->n_input; i++) {
    double s = range->package[package].sensitivity[i].first_order;
    const size_t id = range->input[i].id;
    if (!can_be_asked(&range->input[i]) || !(s > 0.0)) continue;
    const pw_ask here = {i, asked[id].question, asked[id].where,
                         1.0 - sqrt(fmax(0.0, 1.0 - s))};
    if (here.narrows < least) continue;
    size_t k = n < PW_ASK_NEXT ? n++ : PW_ASK_NEXT; /* room, or the last one's if it is less */
    if (k == PW_ASK_NEXT && !(place(range, &ask[k - 1]) < place(range, &here))) continue;
    if (k == PW_ASK_NEXT) k--;
    for (; k > 0 && place(range, &ask[k - 1]) < place(range, &here); k--)
      ask[k] = ask[k - 1];
    ask[k] = here;
  }
  return n;
}
