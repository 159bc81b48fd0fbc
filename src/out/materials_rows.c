#include "out/materials_rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "gen/reference.h"
#include "out/length.h"
#include "panewright/units.h"

#define RULE(id) (&pw_ref_trade_materials[pw_ref_trade_materials__##id])
#define MEASURE(id) (&pw_ref_trade_measure[pw_ref_trade_measure__##id])

/* The rows that are being made. */
typedef struct list {
  const pw_materials_job *s;
  const char *sealant;
  pw_reading as;
  const pw_tongue *t; /* as.tongue */
  size_t n;
  pw_material_row *row;
} list;

/* A new row, with the source of a rule. */
static pw_material_row *next(list *l, const char *item, double quantity, int decimals,
                             const char *unit, const pw_ref_trade_materials_row *source)
{
  /* more rows than there are sizes of things: the last would only be written twice */
  pw_material_row *r = &l->row[l->n < PW_MATERIAL_ROWS ? l->n++ : PW_MATERIAL_ROWS - 1];
  *r = (pw_material_row){.item = item,
                         .quantity = quantity,
                         .decimals = decimals,
                         .unit = unit,
                         .source = source->source,
                         .how_known = source->how_known};
  return r;
}

static pw_material_row *run(list *l, const char *item, double length,
                            const pw_ref_trade_materials_row *source)
{
  return next(l, item, l->as.si ? length : length / PW_FOOT, l->as.si ? 2 : 1,
              l->as.si ? "m" : PW_TEXT("ft"), source);
}

/* So much of it is bought, in whole feet or metres. */
static void buy_run(list *l, pw_material_row *r, double length)
{
  if (l->as.si)
    snprintf(r->buy, sizeof r->buy, "%.0f m", pw_materials_whole(length));
  else
    pw_tongue_put(l->t, r->buy, sizeof r->buy, "%.0f ft", pw_materials_whole(length / PW_FOOT));
}

/* A share in percent. */
static double percent(const pw_ref_trade_materials_row *rule) { return 100.0 * rule->typical; }

/* ---------------------------------------------------------------- outside */

static void joints(list *l)
{
  for (size_t k = 0; k < l->s->n_joint; k++) {
    const pw_joint_sum *j = &l->s->joint[k];
    pw_material_row *r =
        run(l, PW_TEXT("outside joint, window to old frame"), j->length, RULE(MA1));
    pw_tongue_put(l->t, r->size, sizeof r->size, "%s wide, %s deep, Class %g",
                  pw_length_of(l->as, j->width, 16).text,
                  pw_length_of(l->as, j->depth, 32).text, j->class_);
    pw_tongue_put(l->t, r->rule, sizeof r->rule,
                  "round each opening, to the inch; width by the movement of the frame, never "
                  "wider than the gap; depth half of it, at least %s",
                  pw_length_of(l->as, MEASURE(S4)->low * PW_INCH, 16).text);
    r->source = MEASURE(S4)->source;
    r->how_known = MEASURE(S4)->how_known;
  }
}

/* One sealant for all, then what the other joint would take. */
static void sealant(list *l)
{
  pw_material_row *r = next(l, PW_TEXT("sealant, outside"), l->s->seal_cartridges, 2,
                            PW_TEXT("cartridges"), RULE(MA1));
  pw_tongue_put(l->t, r->size, sizeof r->size, "%g fl oz, %s, ASTM C920 Class %g or better",
                RULE(MA1)->typical, pw_tongue_say(l->t, l->sealant[0] ? l->sealant : "sealant"),
                l->s->seal_class);
  snprintf(r->buy, sizeof r->buy, "%.0f", pw_materials_whole(l->s->seal_cartridges));
  pw_tongue_put(
      l->t, r->rule, sizeof r->rule,
      "length x width x depth over %g fl oz a cartridge, and %.0f %% more for nozzle, "
      "tooling and rest; one product of the highest class that a joint wants",
      RULE(MA1)->typical, percent(RULE(MA2)));
  r->load = 1;
  r = run(l, PW_TEXT("joint, old frame to stucco: only where it is not sound"),
          l->s->stucco_length, RULE(MA1));
  pw_tongue_put(l->t, r->size, sizeof r->size, "%s wide, %s deep",
                pw_length_of(l->as, l->s->stucco_width, 16).text,
                pw_length_of(l->as, l->s->stucco_depth, 32).text);
  pw_tongue_put(
      l->t, r->rule, sizeof r->rule,
      "all of it renewed would take %.0f cartridges more (%.2f); nothing is bought for "
      "it here",
      pw_materials_whole(l->s->stucco_cartridges), l->s->stucco_cartridges);
}

static void rods(list *l)
{
  double none = 0.0;
  for (size_t k = 0; k < l->s->n_rod; k++) {
    double length = l->s->rod_length[k] * (1.0 + RULE(MA4)->typical);
    pw_material_row *r =
        run(l, PW_TEXT("backer rod, closed cell"), l->s->rod_length[k], RULE(MA3));
    snprintf(r->size, sizeof r->size, "%s", pw_length_of(l->as, l->s->rod[k], 8).text);
    buy_run(l, r, length);
    pw_tongue_put(
        l->t, r->rule, sizeof r->rule,
        "%.0f %% wider than the joint or more, to the next size sold; %.0f %% more for "
        "cuts; not stretched",
        100.0 * (MEASURE(S5)->low - 1.0), percent(RULE(MA4)));
    r->load = 1;
  }
  for (size_t i = 0; i < l->s->n_opening; i++)
    if (l->s->opening[i].rod_length <= 0.0)
      none += l->s->units[i] * l->s->opening[i].seal_length;
  if (none <= 0.0) return;
  pw_material_row *r = run(l, PW_TEXT("bond-breaker tape"), none, RULE(MA3));
  buy_run(l, r, none);
  pw_tongue_put(l->t, r->rule, sizeof r->rule,
                "where the least rod sold (%s) does not go into the joint",
                pw_length_of(l->as, RULE(MA3)->low * PW_INCH, 8).text);
  r->load = 1;
}

static void tape(list *l)
{
  pw_material_row *r = run(l, PW_TEXT("masking tape"), l->s->tape, RULE(MA15));
  pw_tongue_put(l->t, r->size, sizeof r->size, "roll of %s",
                pw_stock_of(l->as, RULE(MA15)->typical * PW_FOOT).text);
  snprintf(r->buy, sizeof r->buy, "%.0f", pw_materials_whole(l->s->tape_rolls));
  pw_tongue_put(l->t, r->rule, sizeof r->rule,
                "a line along both edges of the outside joint, and %.0f %% more",
                percent(RULE(MA16)));
  r->load = 1;
}

/* ---------------------------------------------------------------- inside */

static void foam(list *l)
{
  static const double cubic_inch = PW_INCH * PW_INCH * PW_INCH;
  if (l->s->foam_volume <= 0.0) return;
  pw_material_row *r =
      next(l, PW_TEXT("low-expansion foam"),
           l->as.si ? l->s->foam_volume * 1e3 : l->s->foam_volume / cubic_inch,
           l->as.si ? 2 : 0, l->as.si ? PW_TEXT("litres") : PW_TEXT("cubic inches"), RULE(MA6));
  pw_tongue_put(l->t, r->size, sizeof r->size, "12 oz can, for windows and doors");
  snprintf(r->buy, sizeof r->buy, "%.0f", pw_materials_whole(l->s->foam_cans));
  pw_tongue_put(
      l->t, r->rule, sizeof r->rule,
      "gap between window and old frame, %s deep from the room; %g cubic inches a can "
      "(its own yield goes before), and %.0f %% more",
      pw_length_of(l->as, RULE(MA5)->typical * PW_INCH, 16).text, RULE(MA6)->typical,
      percent(RULE(MA7)));
  r->load = 1;
}

static void trim(list *l)
{
  const pw_materials_job *s = l->s;
  const pw_trim_stock *stock = &s->stock[s->stock_chosen];
  double straight = 0.0, longer = 0.0;
  for (size_t i = 0; i < s->n_piece; i++)
    *(i < s->n_piece - s->n_long ? &straight : &longer) += s->piece[i].length;
  if (straight > 0.0) {
    pw_material_row *r = run(l, PW_TEXT("inside trim"), straight, RULE(MA8));
    pw_tongue_put(l->t, r->size, sizeof r->size, "lengths of %s",
                  pw_stock_of(l->as, stock->length).text);
    snprintf(r->buy, sizeof r->buy, "%zu", stock->plan.n_stock);
    pw_tongue_put(l->t, r->rule, sizeof r->rule,
                  stock->plan.proven
                      ? PW_TEXT("sides of the opening and %s each to scribe, %s a cut; least "
                                "that holds them: fewer than %zu cannot; %.0f %% is left over")
                      : PW_TEXT("sides of the opening and %s each to scribe, %s a cut; best "
                                "found, at least %zu are wanted; %.0f %% is left over"),
                  pw_length_of(l->as, RULE(MA8)->typical * PW_INCH, 16).text,
                  pw_length_of(l->as, RULE(MA10)->typical * PW_INCH, 16).text,
                  stock->plan.lower_bound, 100.0 * stock->plan.waste);
    r->load = 1;
  }
  if (longer > 0.0) {
    pw_material_row *r =
        run(l, PW_TEXT("inside trim longer than any stock"), longer, RULE(MA8));
    snprintf(r->buy, sizeof r->buy, "%zu", s->n_long);
    pw_tongue_put(l->t, r->rule, sizeof r->rule, "order by the lengths of the list, or splice");
    r->load = 1;
  }
  if (s->trim_curved > 0.0) {
    pw_material_row *r = run(l, PW_TEXT("inside trim, bent"), s->trim_curved, RULE(MA8));
    pw_tongue_put(l->t, r->rule, sizeof r->rule, "by the template of the shape");
    r->load = 1;
  }
}

static void caulk(list *l)
{
  pw_material_row *r =
      run(l, PW_TEXT("inside joint along the trim"), l->s->caulk_length, RULE(MA11));
  pw_tongue_put(l->t, r->size, sizeof r->size, "fillet of %s",
                pw_length_of(l->as, l->s->caulk_leg, 16).text);
  pw_tongue_put(l->t, r->rule, sizeof r->rule, "both edges of the trim");
  r = next(l, PW_TEXT("paintable latex caulk, inside"), l->s->caulk_cartridges, 2,
           PW_TEXT("cartridges"), RULE(MA11));
  pw_tongue_put(l->t, r->size, sizeof r->size, "%g fl oz, ASTM C834", RULE(MA1)->typical);
  snprintf(r->buy, sizeof r->buy, "%.0f", pw_materials_whole(l->s->caulk_cartridges));
  pw_tongue_put(l->t, r->rule, sizeof r->rule,
                "length x half the square of the fillet over %g fl oz a cartridge, and %.0f %% "
                "more for nozzle, tooling and rest",
                RULE(MA1)->typical, percent(RULE(MA2)));
  r->load = 1;
}

static void small_parts(list *l)
{
  pw_material_row *r =
      next(l, PW_TEXT("shims"), (double)l->s->shims, 0, PW_TEXT("pieces"), RULE(MA12));
  pw_tongue_put(l->t, r->buy, sizeof r->buy, "%d (%d to %d)", l->s->shims, l->s->shims_low,
                l->s->shims_high);
  pw_tongue_put(
      l->t, r->rule, sizeof r->rule,
      "a pair at each place; places %s from the corners, under sash corners, mullions "
      "and locks, at most %s apart; sill and jambs",
      pw_length_of(l->as, RULE(MA13)->typical * PW_INCH, 16).text,
      pw_length_of(l->as, MEASURE(W3)->high * PW_INCH, 16).text);
  r->load = 1;
  r = next(l, PW_TEXT("screws"), (double)l->s->screws_high, 0, PW_TEXT("pieces"), RULE(MA14));
  pw_tongue_put(l->t, r->size, sizeof r->size, "by the maker's schedule");
  pw_tongue_put(l->t, r->buy, sizeof r->buy, "%d to %d", l->s->screws_low, l->s->screws_high);
  pw_tongue_put(l->t, r->rule, sizeof r->rule,
                "maker's schedule governs; for the load one a shim place of the jambs, at most "
                "as many again at the head's places; none through the sill");
  r->load = 1;
}

size_t pw_materials_rows(const pw_materials_job *sum, const char *sealant_word, int si,
                         const pw_tongue *tongue, pw_material_row row[])
{
  list l = {.s = sum, .sealant = sealant_word, .as = {si, tongue}, .t = tongue, .row = row};
  if (sum->n_unit == 0) return 0;
  joints(&l);
  sealant(&l);
  rods(&l);
  tape(&l);
  foam(&l);
  trim(&l);
  caulk(&l);
  small_parts(&l);
  return l.n;
}
