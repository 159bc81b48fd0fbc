/* Words and units of the items of job.csv, for the table of items in house_facts.c. */
#ifndef JOB_HOUSE_WORDS_H
#define JOB_HOUSE_WORDS_H

#include "house/airing.h"
#include "house/duct.h"
#include "house/infiltration.h"
#include "job/field.h"
#include "job/number.h"
#include "job/survey.h"
#include "job/words.h"
#include "panewright/rates.h"
#include "panewright/units.h"

/* Seasonal efficiency of a Btu/Wh rating: PW_BTU_H W/W (table money seer_to_cop). The "2" ratings are
 * brought to their forerunner's basis: SEER2 = 0.95 SEER, HSPF2 = 0.85 HSPF (table money
 * ratio_SEER2_per_SEER, ratio_HSPF2_per_HSPF). EER is a full-load figure taken as it is.
 *
 * Heat in a gallon: 91 452 Btu of propane, 138 500 Btu of heating oil; in 100 ft3 of gas 1.037
 * therm. From memory of the energy administration's conversion tables. */
#define PROPANE_GALLON_KWH (91452.0 * PW_BTU / 3.6e6)
#define OIL_GALLON_KWH (138500.0 * PW_BTU / 3.6e6)
#define CCF_KWH (1.037 * PW_THERM_KWH)
#define MMBTU_KWH (10.0 * PW_THERM_KWH)

static const job_word heating_kind[] = {{"furnace", 0},  {"boiler", 1},     {"heat_pump", 2},
                                        {"heatpump", 2}, {"resistance", 3}, {"baseboard", 3},
                                        {"none", 4},     {"no", 4}};
static const job_word cooling_kind[] = {{"none", 0},     {"no", 0},       {"central", 1},
                                        {"split", 1},    {"split_ac", 1}, {"heat_pump", 2},
                                        {"heatpump", 2}, {"room", 3},     {"window_unit", 3}};
static const job_word fuel[] = {{"electricity", PW_FUEL_ELECTRICITY},
                                {"electric", PW_FUEL_ELECTRICITY},
                                {"gas", PW_FUEL_GAS},
                                {"natural_gas", PW_FUEL_GAS},
                                {"oil", PW_FUEL_OIL},
                                {"propane", PW_FUEL_PROPANE}};
static const job_word infiltration[] = {{"constant", PW_INFILTRATION_CONSTANT},
                                        {"sherman_grimsrud", PW_INFILTRATION_SHERMAN_GRIMSRUD},
                                        {"aim2", PW_INFILTRATION_AIM2}};
static const job_word airing[] = {{"by_plant", PW_AIRING_BLANK},
                                  {"never", PW_AIRING_NEVER},
                                  {"evenings", PW_AIRING_EVENINGS},
                                  {"always", PW_AIRING_ALWAYS}};
static const job_word coverings[] = {{"usual", PW_COVERING_USUAL},
                                     {"none", PW_COVERING_NONE},
                                     {"blinds", PW_COVERING_BLINDS},
                                     {"roller", PW_COVERING_ROLLER},
                                     {"drapes", PW_COVERING_DRAPES}};
static const job_word ducts[] = {{"unsaid", PW_DUCTS_BLANK},
                                 {"attic", PW_DUCTS_ATTIC},
                                 {"attic_sealed", PW_DUCTS_ATTIC_SEALED},
                                 {"crawl", PW_DUCTS_CRAWL},
                                 {"basement", PW_DUCTS_BASEMENT},
                                 {"inside", PW_DUCTS_INSIDE}};
static const job_word mass[] = {{"light", 0}, {"medium", 1}, {"heavy", 2}};
static const job_word mismatch[] = {{"refuse", PW_MISMATCH_REFUSE},
                                    {"catalogue", PW_MISMATCH_CATALOGUE},
                                    {"catalog", PW_MISMATCH_CATALOGUE}};
static const job_word correct_height[] = {
    {"made", PW_HEIGHT_MADE}, {"yes", PW_HEIGHT_YES}, {"no", PW_HEIGHT_NO}};
static const job_word language[] = {
    {"en", 0}, {"english", 0}, {"es", 1}, {"spanish", 1}, {"espanol", 1}};
static const job_word sealant[] = {
    {"polyurethane", 0}, {"hybrid", 1}, {"silicone", 2}, {"acrylic", 3}};

static const job_word noise[] = {
    {"traffic", pw_ref_sound_noise__traffic},   {"road", pw_ref_sound_noise__traffic},
    {"aircraft", pw_ref_sound_noise__aircraft}, {"rail", pw_ref_sound_noise__rail},
    {"train", pw_ref_sound_noise__rail},        {"voices", pw_ref_sound_noise__voices}};

static const pw_unit_word decibel[] = {{"dB", 1, 0}, {"dBA", 1, 0}, {"dB(A)", 1, 0}};
static const pw_unit_word area[] = {{"ft2", PW_FOOT2, 0}, {"m2", 1, 0}};
static const pw_unit_word height[] = {{"ft", PW_FOOT, 0}, {"'", PW_FOOT, 0}, {"m", 1, 0}};
static const pw_unit_word ua[] = {{"W/K", 1, 0}, {"Btu/hF", 0.52752792631, 0}};
static const pw_unit_word per_hour[] = {{"1/h", 1, 0}, {"ACH", 1, 0}};
static const pw_unit_word air_flow[] = {
    {"cfm", PW_FOOT2 *PW_FOOT / 60.0, 0}, {"m3/h", 1.0 / 3600.0, 0}, {"L/s", 0.001, 0}};
static const pw_unit_word heat_eff[] = {
    {"AFUE", 1, 0}, {"%AFUE", 0.01, 0},    {"%", 0.01, 0},
    {"COP", 1, 0},  {"HSPF", PW_BTU_H, 0}, {"HSPF2", PW_BTU_H / PW_HSPF2_PER_HSPF, 0}};
static const pw_unit_word cool_eff[] = {{"SEER", PW_BTU_H, 0},
                                        {"SEER2", PW_BTU_H / PW_SEER2_PER_SEER, 0},
                                        {"EER", PW_BTU_H, 0},
                                        {"COP", 1, 0}};
static const pw_unit_word degree[] = {{"F", 1 / 1.8, -32 / 1.8}, {"C", 1, 0}};
static const pw_unit_word degrees[] = {{"F", 1 / 1.8, 0}, {"C", 1, 0}, {"K", 1, 0}};
static const pw_unit_word gain[] = {{"W/m2", 1, 0}, {"Btu/hft2", PW_BTU_H / PW_FOOT2, 0}};
static const pw_unit_word power_price[] = {
    {"$/kWh", 1, 0}, {"c/kWh", 0.01, 0}, {"cents/kWh", 0.01, 0}};
static const pw_unit_word gas_price[] = {{"$/therm", 1 / PW_THERM_KWH, 0},
                                         {"$/ccf", 1 / CCF_KWH, 0},
                                         {"$/MMBtu", 1 / MMBTU_KWH, 0},
                                         {"$/kWh", 1, 0}};
static const pw_unit_word oil_price[] = {
    {"$/gal", 1 / OIL_GALLON_KWH, 0}, {"$/MMBtu", 1 / MMBTU_KWH, 0}, {"$/kWh", 1, 0}};
static const pw_unit_word propane_price[] = {
    {"$/gal", 1 / PROPANE_GALLON_KWH, 0}, {"$/MMBtu", 1 / MMBTU_KWH, 0}, {"$/kWh", 1, 0}};
static const pw_unit_word money[] = {{"$", 1, 0}, {"$/yr", 1, 0}, {"$/year", 1, 0}};
static const pw_unit_word rate[] = {{"", 1, 0}, {"%", 0.01, 0}, {"%/yr", 0.01, 0}};
static const pw_unit_word years[] = {{"yr", 1, 0}, {"years", 1, 0}};
static const pw_unit_word days[] = {{"days", 1, 0}, {"d", 1, 0}};
static const pw_unit_word psf[] = {{"psf", PW_PSF, 0}, {"lb/ft2", PW_PSF, 0}, {"Pa", 1, 0}};

#endif
