#include "panewright/opening.h"

#include <string.h>

#include "panewright/lites.h"
#include "panewright/package.h"
#include "window/frame_line.h"

void pw_opening_init(pw_opening *opening)
{
  pw_opening o = {.quantity = 1,
                  .glass_share = PW_NOT_GIVEN,
                  .rise = PW_NOT_GIVEN,
                  .leg_left = PW_NOT_GIVEN,
                  .leg_right = PW_NOT_GIVEN,
                  .peak_at = PW_NOT_GIVEN,
                  .frame_face = PW_NOT_GIVEN,
                  .sash_face = PW_NOT_GIVEN,
                  .meeting_face = PW_NOT_GIVEN,
                  .sill_height = PW_NOT_GIVEN,
                  .drop_outside = PW_NOT_GIVEN,
                  .near_door = PW_NOT_GIVEN,
                  .near_water = PW_NOT_GIVEN,
                  .near_walk = PW_NOT_GIVEN,
                  .room_volume = PW_NOT_GIVEN,
                  .wall_rw = PW_NOT_GIVEN,
                  .vent_dne = PW_NOT_GIVEN,
                  .option.absorptance = PW_NOT_GIVEN};
  for (int i = 0; i < 3; i++)
    o.width[i] = o.height[i] = PW_NOT_GIVEN;
  o.diagonal[0] = o.diagonal[1] = PW_NOT_GIVEN;
  o.existing_glass.n_pane = 1;
  o.existing_glass.pane[0].thickness = 0.003;
  memcpy(o.existing_glass.pane[0].kind, "clear", sizeof "clear");
  memcpy(o.existing_glass_text, "3mm clear", sizeof "3mm clear");
  *opening = o;
}

void pw_opening_faces(const pw_opening *o, pw_opening_face face[PW_OPENING_FACES])
{
  pw_operator k = o->operator_existing;
  int one_lite = pw_operator_lites(k, o->config) == 1, door = k == PW_HINGED_DOOR;
  const struct {
    const char *name;
    double given, usual;
    int used;
  } row[PW_OPENING_FACES] = {
      {"frame_face", o->frame_face, pw_existing_frame_face(k),
       k == PW_FIXED || (!one_lite && k != PW_DOUBLE_HUNG)},
      {"sash_face", o->sash_face, door ? pw_existing_door_face() : pw_existing_sash_face(),
       k != PW_FIXED && !(door && o->glass_share > 0.0)},
      {"meeting_face", o->meeting_face, pw_existing_meeting_face(), !one_lite}};
  for (size_t i = 0; i < PW_OPENING_FACES; i++) {
    int given = pw_is_given(row[i].given);
    face[i] =
        (pw_opening_face){row[i].name, given ? row[i].given : row[i].usual, given, row[i].used};
  }
}

void pw_frame_line_init(pw_frame_line *line)
{
  *line = (pw_frame_line){
      .operator_ = PW_OPERATOR_COUNT, .clearance = PW_NOT_GIVEN, .absorptance = PW_NOT_GIVEN};
}

void pw_package_init(pw_package *package)
{
  const pw_given none = {.value = PW_NOT_GIVEN};
  *package = (pw_package){.frame_line = "vinyl",
                          .filling = "foam",
                          .label_u = none,
                          .label_shgc = none,
                          .label_vt = none,
                          .label_air_leakage = none,
                          .label_rw = none,
                          .label_ctr = none,
                          .label_stc = none,
                          .label_oitc = none};
}

void pw_label_row_init(pw_label_row *row)
{
  const pw_given none = {.value = PW_NOT_GIVEN};
  *row = (pw_label_row){.u = none,
                        .shgc = none,
                        .vt = none,
                        .air_leakage = none,
                        .rw = none,
                        .ctr = none,
                        .stc = none,
                        .oitc = none};
}
