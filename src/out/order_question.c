/* What a maker would ask back. */
#include "out/option_out.h"
#include "out/order_paper.h"
#include "window/opening_package.h"

static int is_hinged(const pw_fit_report *r, size_t i)
{
  pw_operator k = r->job->opening[i].operator_insert;
  return (k == PW_CASEMENT || k == PW_HINGED_DOOR) &&
         r->job->opening[i].option.hinge == PW_HINGE_ASK;
}

static int swings(const pw_fit_report *r, size_t i)
{
  return r->job->opening[i].operator_insert == PW_HINGED_DOOR;
}

static int slides(const pw_fit_report *r, size_t i)
{
  pw_operator k = r->job->opening[i].operator_insert;
  return (k == PW_SLIDER || k == PW_SLIDING_DOOR) && !r->job->opening[i].config[0];
}

static int has_flankers(const pw_fit_report *r, size_t i)
{
  return r->job->opening[i].operator_insert == PW_FLANKER;
}

/* Asked once a unit, of the row that the others join. */
static int is_mulled(const pw_fit_report *r, size_t i)
{
  return r->job->opening[i].unit[0] && r->job->opening[i].unit_joint == PW_JOINT_BLANK;
}

static int opens_view(const pw_fit_report *r, size_t i)
{
  pw_package package;
  pw_opening_package(r->job, r->column, &r->job->opening[i], &package);
  return pw_option_opens_view(&r->job->opening[i], &package);
}

static const struct {
  int (*asks)(const pw_fit_report *r, size_t i);
  pw_order_question question;
} asked[] = {
    {is_hinged,
     {PW_TEXT("hinge side, seen from outside"), {PW_TEXT("left"), PW_TEXT("right")}}},
    {swings, {PW_TEXT("the door swings"), {PW_TEXT("inward"), PW_TEXT("outward")}}},
    {slides,
     {PW_TEXT("the lite that slides, seen from outside"), {PW_TEXT("left"), PW_TEXT("right")}}},
    {has_flankers,
     {PW_TEXT("the sashes at both sides"),
      {PW_TEXT("slide"), PW_TEXT("are hinged at the outer edge")}}},
    {is_mulled,
     {PW_TEXT("the units named with it are joined"),
      {PW_TEXT("by the maker"), PW_TEXT("on site")}}},
    {opens_view,
     {PW_TEXT("the old glass cannot be seen through, this one can"),
      {PW_TEXT("clear is right"), PW_TEXT("pattern: ______________")}}},
};

const pw_order_question *pw_order_question_of(const pw_fit_report *r, size_t i, size_t k)
{
  for (size_t q = 0; q < sizeof asked / sizeof asked[0]; q++)
    if (asked[q].asks(r, i) && k-- == 0) return &asked[q].question;
  return NULL;
}
