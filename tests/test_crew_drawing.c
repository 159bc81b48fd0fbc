/* out/crew_drawing: one opening drawn to scale; where each line of the picture stands, by hand: an opening of 0.92 x 0.98 m fills the
 * 184 x 196 units that are there at 200 a metre, from its lower left corner at (58, 222). */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "out/crew_drawing.h"

typedef struct drawn {
  pw_opening o;
  pw_fit fit;
  pw_materials m;
  char text[8000];
} drawn;

/* 20 mm of old face all round; a unit of 0.86 x 0.90 m, 30 mm from the left and 40 mm from the bottom; fins of 10 mm, a lip of 20. */
static drawn *by_hand(void)
{
  drawn *d = calloc(1, sizeof *d);
  assert_non_null(d);
  pw_opening_init(&d->o);
  d->o.fin_width = 0.010;
  d->o.sill_lip = 0.020;
  pw_fit *f = &d->fit;
  f->opening_width = 0.92;
  f->opening_height = 0.98;
  f->retained_face = 0.02;
  f->retained_width[PW_LEFT] = 0.03;
  f->retained_width[PW_BOTTOM] = 0.04;
  f->order_width = 0.86;
  f->order_height = 0.90;
  f->pocket_width = 0.88;
  f->pocket_height = 0.94;
  f->insert.n_lite = 2;
  f->insert.width = 0.86;
  f->insert.height = 0.90;
  f->insert.lite[0] =
      (pw_lite){.x = 0.05, .y = 0.05, .width = 0.35, .height = 0.8, .moving = 1};
  f->insert.lite[1] = (pw_lite){.x = 0.46, .y = 0.05, .width = 0.35, .height = 0.8};
  return d;
}

static void draw(drawn *d, int si)
{
  memset(d->text, 0, sizeof d->text);
  FILE *out = fmemopen(d->text, sizeof d->text - 1, "w");
  assert_non_null(out);
  pw_html h = {out, NULL};
  pw_crew_drawing(&d->o, &d->fit, &d->m, (pw_reading){.si = si}, &h);
  fclose(out);
}

static void has(const drawn *d, const char *line)
{
  if (!strstr(d->text, line)) fail_msg("no '%s' in:\n%s", line, d->text);
}

static size_t count(const drawn *d, const char *what)
{
  size_t n = 0;
  for (const char *at = d->text; (at = strstr(at, what)) != NULL; at++)
    n++;
  return n;
}

static void boxes_stand_to_scale(void **state)
{
  (void)state;
  drawn *d = by_hand();
  draw(d, 0);
  has(d, "fill=\"#bbb\" stroke=\"#000\" stroke-width=\"1.4\" "
         "x=\"58.0\" y=\"26.0\" width=\"184.0\" height=\"196.0\"/>");
  has(d, "stroke-width=\"0.8\" x=\"62.0\" y=\"30.0\" width=\"176.0\" height=\"188.0\"/>");
  has(d, "fill=\"#eee\" stroke=\"#000\" stroke-width=\"2\" "
         "x=\"64.0\" y=\"34.0\" width=\"172.0\" height=\"180.0\"/>");
  has(d, "stroke-width=\"1\" x=\"74.0\" y=\"44.0\" width=\"70.0\" height=\"160.0\"/>");
  has(d, "stroke-width=\"1\" x=\"156.0\" y=\"44.0\" width=\"70.0\" height=\"160.0\"/>");
  /* fins of 2 units are drawn as 3, that a pen can show */
  has(d,
      "fill=\"#000\" stroke=\"#000\" x=\"62.0\" y=\"30.0\" width=\"3.0\" height=\"188.0\"/>");
  has(d,
      "fill=\"#000\" stroke=\"#000\" x=\"235.0\" y=\"30.0\" width=\"3.0\" height=\"188.0\"/>");
  has(d,
      "fill=\"#000\" stroke=\"#000\" x=\"62.0\" y=\"214.0\" width=\"176.0\" height=\"4.0\"/>");
  assert_int_equal(count(d, "<rect "), 8);
  d->o.fin_width = d->o.sill_lip = 0.0; /* what is not there is not drawn */
  draw(d, 0);
  assert_int_equal(count(d, "<rect "), 5);
  d->fit.opening_height = 1.96; /* twice as high: 100 a metre, in the middle */
  draw(d, 0);
  has(d, "x=\"104.0\" y=\"26.0\" width=\"92.0\" height=\"196.0\"/>");
  free(d);
}

/* Dashed: what comes off; one fin is the left one; what stays is never cut. */
static void what_comes_off_is_dashed(void **state)
{
  (void)state;
  static const struct {
    int cut, lip_cut, fins_stay, lip_stay, fins_off, lip_off;
  } row[] = {{0, 0, 0, 0, 0, 0}, {1, 0, 0, 0, 1, 0}, {2, 0, 0, 0, 2, 0},
             {2, 1, 0, 0, 2, 1}, {2, 1, 1, 0, 0, 1}, {2, 1, 0, 1, 2, 0}};
  drawn *d = by_hand();
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    d->o.fins_cut = row[i].cut;
    d->o.sill_lip_cut = row[i].lip_cut;
    d->o.fins_stay = row[i].fins_stay;
    d->o.lip_stay = row[i].lip_stay;
    draw(d, 0);
    assert_int_equal(pw_crew_fins_off(&d->o), row[i].fins_off);
    assert_int_equal(pw_crew_lip_off(&d->o), row[i].lip_off);
    assert_int_equal(count(d, "stroke-dasharray"), row[i].fins_off + row[i].lip_off);
    if (row[i].fins_off == 1) has(d, "\"5 3\" x=\"62.0\" y=\"30.0\" width=\"3.0\"");
  }
  d->o.fin_width = d->o.sill_lip = 0.0;
  assert_int_equal(pw_crew_fins_off(&d->o) + pw_crew_lip_off(&d->o), 0);
  free(d);
}

/* The first lite, whose middle is at (109, 124): an arrow of 28 units the way it slides, or the lines to where it hinges. */
static void the_moving_lite_shows_how(void **state)
{
  (void)state;
  static const struct {
    pw_operator as;
    pw_hinge hinge;
    const char *path;
  } row[] = {{PW_SLIDER, 0, "M95.0 124.0H123.0M117.0 119.0L123.0 124.0L117.0 129.0"},
             {PW_CASEMENT, PW_HINGE_LEFT, "M144.0 44.0L74.0 124.0L144.0 204.0"},
             {PW_CASEMENT, PW_HINGE_RIGHT, "M74.0 44.0L144.0 124.0L74.0 204.0"},
             {PW_HINGED_DOOR, PW_HINGE_RIGHT, "M74.0 44.0L144.0 124.0L74.0 204.0"},
             {PW_AWNING, 0, "M74.0 204.0L109.0 44.0L144.0 204.0"},
             {PW_HOPPER, 0, "M74.0 44.0L109.0 204.0L144.0 44.0"},
             {PW_SINGLE_HUNG, 0, "M109.0 138.0V110.0M104.0 116.0L109.0 110.0L114.0 116.0"}};
  drawn *d = by_hand();
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    d->o.operator_insert = row[i].as;
    d->o.option.hinge = row[i].hinge;
    draw(d, 0);
    has(d, row[i].path);
    assert_int_equal(count(d, "<path "), 1);
  }
  d->o.operator_insert = PW_CASEMENT;
  d->o.option.hinge = PW_HINGE_ASK; /* not known: no lines */
  draw(d, 0);
  assert_int_equal(count(d, "<path "), 0);
  d->fit.insert.lite[0].moving = 0;
  d->fit.insert.lite[1].moving =
      1; /* the right one slides left; hung, the upper one comes down */
  d->o.operator_insert = PW_SLIDER;
  draw(d, 0);
  has(d, "M205.0 124.0H177.0M183.0 119.0L177.0 124.0L183.0 129.0");
  d->o.operator_insert = PW_DOUBLE_HUNG;
  draw(d, 0);
  has(d, "M191.0 110.0V138.0M186.0 132.0L191.0 138.0L196.0 132.0");
  free(d);
}

/* Wedges 9 units long and 8 wide, with their tips at the unit; gaps as figures: half of pocket less order, 10 and 20 mm. */
static void shims_and_gaps_stand_at_their_side(void **state)
{
  (void)state;
  drawn *d = by_hand();
  d->m.n_shim[PW_LEFT] = d->m.n_shim[PW_RIGHT] = d->m.n_shim[PW_BOTTOM] = 1;
  d->m.shim[PW_LEFT][0] = 0.1;
  d->m.shim[PW_RIGHT][0] = 0.2;
  d->m.shim[PW_BOTTOM][0] = 0.3;
  draw(d, 1);
  has(d, "M64.0 194.0L55.0 190.0L55.0 198.0Z");
  has(d, "M236.0 174.0L245.0 170.0L245.0 178.0Z");
  has(d, "M124.0 214.0L120.0 223.0L128.0 223.0Z");
  has(d,
      "x=\"44.0\" y=\"88.7\" font-size=\"15\" font-weight=\"700\" text-anchor=\"end\">10.0<");
  has(d, "x=\"256.0\" y=\"88.7\" font-size=\"15\" font-weight=\"700\" "
         "text-anchor=\"start\">10.0<");
  has(d, "x=\"150.0\" y=\"18.0\" font-size=\"15\" font-weight=\"700\" "
         "text-anchor=\"middle\">20.0<");
  has(d, "x=\"150.0\" y=\"250.0\" font-size=\"15\" font-weight=\"700\" "
         "text-anchor=\"middle\">20.0<");
  draw(d, 0);
  has(d, "text-anchor=\"end\">13/32<"); /* 10 mm is 0.394 in, 12.6 of 32nds */
  d->fit.shape.kind = PW_SHAPE_ARCH;
  d->fit.gap = 0.007;
  double gap[4];
  pw_crew_gap(&d->fit, gap);
  for (int k = 0; k < 4; k++)
    pw_assert_near(gap[k], 0.007, 0.0, "gap of a shape", "the least all round");
  free(d);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(boxes_stand_to_scale),
      cmocka_unit_test(what_comes_off_is_dashed),
      cmocka_unit_test(the_moving_lite_shows_how),
      cmocka_unit_test(shims_and_gaps_stand_at_their_side),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
