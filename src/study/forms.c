#include "study/forms.h"

#include "gen/reference.h"

_Static_assert((int)pw_ref_model_forms__kind_film_out == PW_FORM_FILM_OUT &&
                   (int)pw_ref_model_forms__kind_ground == PW_FORM_GROUND,
               "model forms: kinds of the schema");

pw_form pw_form_at(pw_form_kind kind, int place)
{
  for (size_t r = 0; r < pw_ref_model_forms__n; r++) {
    const pw_ref_model_forms_row *row = &pw_ref_model_forms[r];
    if (row->kind == (unsigned)kind && place-- == 0)
      return (pw_form){(int)row->code, row->words, row->source, row->how_known};
  }
  return (pw_form){-1, NULL, NULL, NULL};
}

void pw_spread_of_forms(pw_form_kind kind, pw_spread *spread)
{
  int n = 0, usual = 0;
  for (; pw_form_at(kind, n).words; n++)
    if (pw_form_at(kind, n).code == 0) usual = n;
  *spread = (pw_spread){
      PW_SHAPE_CHOICE, 0.0, usual, n - 1, "table model_forms: published forms, each as likely",
      "computed"};
}
