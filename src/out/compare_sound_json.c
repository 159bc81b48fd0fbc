#include <math.h>

#include "gen/reference.h"
#include "out/compare_sound_out.h"
#include "out/json.h"
#include "out/range_out.h"
#include "out/sound_report.h"

static const char *word_of(pw_heard heard)
{
  static const char *const word[] = {"may", "no", "yes"};
  return word[heard];
}

void pw_compare_sound_window_json(const pw_compare_sound *s, int package, size_t i, json_t *o)
{
  const pw_opening_sound *w =
      package < 0 ? &s->existing[i] : &s->package[(size_t)package * s->n_opening + i];
  json_t *sound = json_object(), *glass = json_object();
  pw_sound_json_numbers(sound, &w->number);
  pw_sound_json_numbers(glass, &w->glass);
  json_object_set_new(sound, "glass", glass);
  if (package >= 0) {
    json_object_set_new(sound, "change_rw_ctr_db", pw_band_json(&w->change));
    pw_json_set_text(sound, "heard", word_of(w->heard));
    pw_json_set(sound, "window_alone_en_14351_1_rw_db", w->window_rw);
    pw_json_set(sound, "window_alone_en_14351_1_rw_ctr_db", w->window_rw_ctr);
  }
  json_object_set_new(o, "sound", sound);
}

static void given(json_t *o, const char *key, const pw_given *g, int there)
{
  pw_json_set(o, key, there ? g->value : (double)NAN);
}

static json_t *label(const pw_package *k)
{
  json_t *o = json_object();
  given(o, "rw_db", &k->label_rw, pw_given_is(&k->label_rw));
  given(o, "ctr_db", &k->label_ctr, pw_given_is(&k->label_ctr));
  given(o, "stc_db", &k->label_stc, pw_given_is(&k->label_stc));
  given(o, "oitc_db", &k->label_oitc, pw_given_is(&k->label_oitc));
  return o;
}

static json_t *room(const pw_compare *c, const pw_room_sound *r)
{
  json_t *o = json_object(), *set = json_array(), *tag = json_array();
  pw_json_set_text(o, "name", r->name);
  for (size_t k = 0; k < r->n_opening; k++)
    json_array_append_new(tag, json_string(c->job->opening[r->opening[k]].tag));
  json_object_set_new(o, "openings", tag);
  pw_json_set(o, "room_volume_m3", r->volume);
  pw_json_set(o, "wall_rw_db", r->wall_rw);
  pw_json_set(o, "vent_dne_db", r->vent_dne);
  json_object_set_new(o, "described", json_boolean(r->complete));
  for (size_t p = 0; p <= c->n_package; p++) {
    json_t *w = json_object();
    pw_json_set_text(w, "name", p ? c->rated.package_set[p - 1].name : "existing");
    pw_json_set(w, "level_difference_db", r->complete ? r->level_difference[p] : (double)NAN);
    pw_json_set(w, "level_indoors_db", r->level_indoors[p]);
    if (p) json_object_set_new(w, "change_db", pw_band_json(&r->change[p - 1]));
    json_array_append_new(set, w);
  }
  json_object_set_new(o, "windows", set);
  return o;
}

json_t *pw_compare_sound_json(const pw_compare *c, const pw_compare_sound *s)
{
  json_t *o = json_object(), *package = json_array(), *rooms = json_array();
  pw_json_set_text(o, "noise", pw_ref_sound_noise[s->noise].id);
  pw_json_set(o, "noise_db_2m",
              c->job->house.noise_db_2m > 0.0 ? c->job->house.noise_db_2m : (double)NAN);
  pw_json_set_text(o, "set", "safe");
  json_object_set_new(o, "draws", json_integer(PW_SOUND_DRAWS));
  for (size_t p = 0; p < c->n_package; p++) {
    json_t *k = json_object();
    pw_json_set_text(k, "name", c->rated.package_set[p].name);
    json_object_set_new(k, "change_rw_ctr_db", pw_band_json(&s->change[p]));
    pw_json_set_text(k, "heard", word_of(s->heard[p]));
    json_object_set_new(k, "label", label(&c->job->package[p]));
    json_array_append_new(package, k);
  }
  json_object_set_new(o, "packages", package);
  for (size_t r = 0; r < s->n_room; r++)
    json_array_append_new(rooms, room(c, &s->room[r]));
  json_object_set_new(o, "rooms", rooms);
  return o;
}
